#include "cli/commands.hpp"

#include "cli/options.hpp"
#include "print/selling/journals.hpp"
#include "workshop/selling/journal_apart.hpp"
#include "workshop/selling/journal_care.hpp"

#include <memory>

namespace barrow::cli {
namespace {

/// What the commands on journals have in common.
struct JournalGiven {
    std::vector<std::string> serials;
    std::string note;

    void add_to(Command& command, Shell& shell, const char* why) {
        command.add_option("serial", serials, "Serials of the journals (see: barrow journal list)")
            ->required();
        command.add_option("--note", note, why);
        command.add_flag("-n,--dry-run", shell.dry_run, "Only say what would be booked");
    }
};

void add_list(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("list", "Finished journals in hand");
    command->callback([&shell] {
        shell.action = [&shell] {
            store::Database database = shell.open();
            const auto journals = workshop::journals(database);
            shell.show([&] { return print::screen(journals); },
                       [&] { return print::document(journals); });
        };
    });
}

void add_journal_change(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("change", "Say where journals are, how good, what wanted");
    struct Changing {
        workshop::Serials serials;
        workshop::JournalChange change;
    };
    const auto given = std::make_shared<Changing>();
    command->add_option("serial", given->serials, "Serials of the journals")->required();
    command->add_option("--place", given->change.place, "Where they are; - empties it");
    command->add_option("--price", given->change.price,
                        "Wanted price, if not the design's; - empties it");
    command->add_option("--condition", given->change.condition, "good or second");
    command->add_option("--note", given->change.note, "Anything worth knowing; - empties it");
    command->add_flag("-n,--dry-run", shell.dry_run, "Only say what would be kept");
    command->callback([&shell, given] {
        shell.action = [&shell, given] {
            store::Database database = shell.open();
            workshop::Context context = shell.context(database);
            const auto changed = workshop::change_journals(context, given->serials, given->change);
            shell.say(print::screen(changed, workshop::read_settings(database)));
        };
    });
}

void add_sell(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("sell", "Book journals as sold");
    struct Sale {
        JournalGiven common;
        std::string price, date;
    };
    const auto given = std::make_shared<Sale>();
    given->common.add_to(*command, shell, "Anything worth keeping with the entry");
    command->add_option("--price", given->price,
                        "What each was sold for (else its own wanted price)");
    command->add_option("--date", given->date, "The day (else today)");
    command->callback([&shell, given] {
        shell.action = [&shell, given] {
            workshop::Selling how{given->price, {}};
            if (!given->date.empty()) how.day = base::read_date(given->date, "--date");
            store::Database database = shell.open();
            workshop::Context context = shell.context(database, given->common.note);
            shell.say(print::screen(workshop::sell_journals(context, given->common.serials, how),
                                    "sold"));
        };
    });
}

/// Giving away and damage: one use case each, without more to say than why.
void add_leave(Command& group, Shell& shell, const char* verb, const char* about, const char* why,
               const char* done,
               workshop::JournalsLeft (*leave)(workshop::Context&, const workshop::Serials&)) {
    auto* command = group.add_subcommand(verb, about);
    const auto given = std::make_shared<JournalGiven>();
    given->add_to(*command, shell, why);
    command->callback([&shell, given, done, leave] {
        shell.action = [&shell, given, done, leave] {
            store::Database database = shell.open();
            workshop::Context context = shell.context(database, given->note);
            shell.say(print::screen(leave(context, given->serials), done));
        };
    });
}

void add_apart(Command& group, Shell& shell) {
    auto* command =
        group.add_subcommand("apart", "Take a journal apart for what can be used again");
    struct Apart {
        std::string serial, note;
        std::vector<std::string> get;
    };
    const auto given = std::make_shared<Apart>();
    command->add_option("serial", given->serial, "Serial of the journal")->required();
    command
        ->add_option("--get", given->get,
                     "What comes back: CLASP-BR=2, GLUE=3ml, RIB-GREEN=30cm, FERN=165mmx210mm")
        ->type_name("CODE=AMOUNT")
        ->repeats()
        ->required();
    command->add_option("--note", given->note, "Why");
    command->add_flag("-n,--dry-run", shell.dry_run, "Only say what would be booked");
    command->callback([&shell, given] {
        shell.action = [&shell, given] {
            std::vector<workshop::WantedBack> wanted;
            for (const std::string& text : given->get) {
                auto [material, amount] =
                    halves(text, "--get", "write the material and how much: --get CLASP-BR=2");
                wanted.push_back({std::move(material), std::move(amount)});
            }
            store::Database database = shell.open();
            workshop::Context context = shell.context(database, given->note);
            shell.say(print::screen(workshop::take_apart(context, given->serial, wanted)));
        };
    });
}

} // namespace

void add_journal_commands(Command& app, Shell& shell) {
    auto* group =
        app.add_subcommand("journal", "Finished journals: where they are and where they go");
    add_list(*group, shell);
    add_journal_change(*group, shell);
    add_sell(*group, shell);
    add_leave(*group, shell, "give", "Book journals as given away", "To whom", "given away",
              workshop::give_journals);
    add_leave(*group, shell, "damage", "Write off journals that cannot be sold any more",
              "What happened", "written off", workshop::damage_journals);
    add_apart(*group, shell);
}

} // namespace barrow::cli
