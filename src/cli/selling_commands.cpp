#include "cli/commands.hpp"

#include "cli/options.hpp"
#include "cli/tables.hpp"
#include "print/selling/fairs.hpp"
#include "print/selling/journals.hpp"
#include "workshop/selling/fairs.hpp"
#include "workshop/selling/journal_apart.hpp"
#include "workshop/selling/journal_care.hpp"

#include <memory>

namespace barrow::cli {
namespace {

/// What the commands that book journals out have in common.
void add_leaving(Command& command, Shell& shell, std::vector<std::string>& serials,
                 const char* why) {
    command.add_option("serial", serials, "Serials of the journals (see: barrow journal list)")
        ->required();
    add_note(command, shell, why);
    add_dry_run(command, shell);
}

void add_list(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("list", "Finished journals in hand");
    command->callback([&shell] {
        store::Database database = shell.open();
        const auto journals = workshop::journals(database);
        shell.show([&] { return print::screen(journals); },
                   [&] { return print::document(journals); });
    });
}

void add_journal_change(Command& group, Shell& shell) {
    auto* command =
        group.add_subcommand("change", "Change journals' place, condition, wanted price or note");
    struct Changing {
        workshop::Serials serials;
        workshop::JournalChange change;
    };
    const auto given = std::make_shared<Changing>();
    command->add_option("serial", given->serials, "Serials of the journals")->required();
    command->add_option("--place", given->change.place, "Where they are; - empties it");
    command->add_option("--price", given->change.price,
                        "Price asked, if not the one by your margin; - empties it");
    command->add_option("--condition", given->change.condition, "good or second");
    command->add_option("--note", given->change.note, "A note; - empties it");
    add_dry_run(*command, shell);
    command->callback([&shell, given] {
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        const auto changed = workshop::change_journals(context, given->serials, given->change);
        shell.say(print::screen(changed, workshop::read_settings(database)));
    });
}

void add_sell(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("sell", "Book journals as sold");
    struct Sale {
        std::vector<std::string> serials;
        std::string price, date;
    };
    const auto given = std::make_shared<Sale>();
    add_leaving(*command, shell, given->serials, "A note to keep with the entry");
    command->add_option("--price", given->price, "What each one sold for (else the price asked)");
    add_date(*command, given->date, "Day of the sale (else today)");
    command->callback([&shell, given] {
        workshop::Selling how{given->price, {}};
        if (!given->date.empty()) how.day = base::read_date(given->date, "--date");
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        shell.say(print::screen(workshop::sell_journals(context, given->serials, how), "sold"));
    });
}

/// Giving away and damage: one use case each, without more to say than why.
void add_leave(Command& group, Shell& shell, const char* verb, const char* about, const char* why,
               const char* done,
               workshop::JournalsLeft (*leave)(workshop::Context&, const workshop::Serials&)) {
    auto* command = group.add_subcommand(verb, about);
    const auto serials = std::make_shared<std::vector<std::string>>();
    add_leaving(*command, shell, *serials, why);
    command->callback([&shell, serials, done, leave] {
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        shell.say(print::screen(leave(context, *serials), done));
    });
}

void add_apart(Command& group, Shell& shell) {
    auto* command =
        group.add_subcommand("apart", "Take a journal apart for what can be used again");
    struct Apart {
        std::string serial;
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
    add_note(*command, shell, "Why");
    add_dry_run(*command, shell);
    command->callback([&shell, given] {
        std::vector<workshop::WantedBack> wanted;
        for (const std::string& text : given->get) {
            auto [material, amount] =
                halves(text, "--get", "write the material and how much: --get CLASP-BR=2");
            wanted.push_back({std::move(material), std::move(amount)});
        }
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        shell.say(print::screen(workshop::take_apart(context, given->serial, wanted)));
    });
}

/// Which fair a command is about.
void add_fair(Command& command, std::int64_t& number) {
    command.add_option("fair", number, "Its number (see: barrow fair list)")->required();
}

void add_fair_list(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("list", "Fairs, and what each one earned");
    const auto table = std::make_shared<TableOptions>();
    table->add_to(*command);
    command->callback([&shell, table] {
        store::Database database = shell.open();
        show_table(shell, *table, workshop::fairs(database));
    });
}

void add_fair_show(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("show", "One fair: its list, what was sold, what is left");
    const auto number = std::make_shared<std::int64_t>();
    const auto table = std::make_shared<TableOptions>();
    add_fair(*command, *number);
    table->add_to(*command);
    command->callback([&shell, number, table] {
        store::Database database = shell.open();
        show_table(shell, *table, workshop::fair_numbered(database, *number));
    });
}

void add_fair_new(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("new", "Enter a fair, past or to come");
    struct New {
        std::string name, on, fee;
    };
    const auto given = std::make_shared<New>();
    command->add_option("name", given->name, "What it is called")->required();
    command->add_option("--on", given->on, "Its day")->type_name("DATE")->required();
    command->add_option("--fee", given->fee, "Pitch fee");
    add_note(*command, shell);
    add_dry_run(*command, shell);
    command->callback([&shell, given] {
        const workshop::NewFair wanted{given->name, base::read_date(given->on, "--on"), given->fee};
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        shell.say(print::screen(workshop::new_fair(context, wanted)));
    });
}

/// "quayside=4" is a design and a number of journals; anything else is a serial.
workshop::Taking read_taking(const std::vector<std::string>& words) {
    workshop::Taking taking;
    for (const std::string& word : words) {
        if (word.find('=') == std::string::npos)
            taking.serials.push_back(word);
        else
            taking.designs.push_back(
                read_numbered(word, "write a serial, or a design and how many: quayside=4"));
    }
    return taking;
}

void add_fair_take(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("take", "Put journals on the list for a fair");
    struct Take {
        std::int64_t fair = 0;
        std::vector<std::string> words;
    };
    const auto given = std::make_shared<Take>();
    add_fair(*command, given->fair);
    command
        ->add_option("journals", given->words,
                     "Serials, or a design and how many, oldest journals first: quayside=4")
        ->required();
    add_note(*command, shell);
    add_dry_run(*command, shell);
    command->callback([&shell, given] {
        const auto taking = read_taking(given->words);
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        shell.say(print::screen(workshop::take_to_fair(context, given->fair, taking)));
    });
}

void add_fair_sell(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("sell", "Book journals as sold at the fair, on its day");
    struct Sell {
        std::int64_t fair = 0;
        std::vector<std::string> serials;
        std::string price;
    };
    const auto given = std::make_shared<Sell>();
    add_fair(*command, given->fair);
    command->add_option("serial", given->serials, "Serials of the journals")->required();
    command->add_option("--price", given->price, "What each one sold for (else the price asked)");
    add_note(*command, shell);
    add_dry_run(*command, shell);
    command->callback([&shell, given] {
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        const auto sold =
            workshop::sell_at_fair(context, given->fair, given->serials, given->price);
        shell.say(print::screen(sold.first, "sold"));
    });
}

void add_fair_pay(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("pay", "Enter another cost of a fair");
    struct Pay {
        std::int64_t fair = 0;
        std::string what, amount;
    };
    const auto given = std::make_shared<Pay>();
    add_fair(*command, given->fair);
    command->add_option("what", given->what, "What for: travel")->required();
    command->add_option("amount", given->amount, "How much")->required();
    add_note(*command, shell);
    add_dry_run(*command, shell);
    command->callback([&shell, given] {
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        shell.say(print::screen(
            workshop::pay_for_fair(context, given->fair, given->what, given->amount)));
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

void add_fair_commands(Command& app, Shell& shell) {
    auto* group = app.add_subcommand("fair", "Market days: what you take, what you sell");
    add_fair_list(*group, shell);
    add_fair_show(*group, shell);
    add_fair_new(*group, shell);
    add_fair_take(*group, shell);
    add_fair_sell(*group, shell);
    add_fair_pay(*group, shell);
}

} // namespace barrow::cli
