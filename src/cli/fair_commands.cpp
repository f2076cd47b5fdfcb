#include "cli/commands.hpp"

#include "cli/options.hpp"
#include "cli/tables.hpp"
#include "print/selling/fairs.hpp"
#include "print/selling/journals.hpp"
#include "workshop/selling/fairs.hpp"

#include <memory>

namespace barrow::cli {
namespace {

/// What the commands on one fair that write have in common.
struct AtFair {
    std::int64_t number = 0;
    std::string note;

    void add_to(Command& command) {
        command.add_option("fair", number, "Its number (see: barrow fair list)")->required();
    }
    void add_rest_to(Command& command, Shell& shell) {
        command.add_option("--note", note, "Anything worth keeping with the entry");
        command.add_flag("-n,--dry-run", shell.dry_run, "Only say what would be noted");
    }
};

void add_fair_list(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("list", "Fairs and what came of them");
    const auto table = std::make_shared<TableOptions>();
    table->add_to(*command);
    command->callback([&shell, table] {
        shell.action = [&shell, table] {
            store::Database database = shell.open();
            show_table(shell, *table, workshop::fairs(database));
        };
    });
}

void add_fair_show(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("show", "One fair: the list, what was sold, what is left");
    const auto number = std::make_shared<std::int64_t>();
    const auto table = std::make_shared<TableOptions>();
    command->add_option("fair", *number, "Its number")->required();
    table->add_to(*command);
    command->callback([&shell, number, table] {
        shell.action = [&shell, number, table] {
            store::Database database = shell.open();
            show_table(shell, *table, workshop::fair_numbered(database, *number));
        };
    });
}

void add_fair_new(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("new", "Note a fair, to come or gone");
    struct New {
        std::string name, on, fee;
        AtFair common;
    };
    const auto given = std::make_shared<New>();
    command->add_option("name", given->name, "What it is called")->required();
    command->add_option("--on", given->on, "Its day")->type_name("DATE")->required();
    command->add_option("--fee", given->fee, "Pitch fee");
    given->common.add_rest_to(*command, shell);
    command->callback([&shell, given] {
        shell.action = [&shell, given] {
            const workshop::NewFair wanted{given->name, base::read_date(given->on, "--on"),
                                           given->fee};
            store::Database database = shell.open();
            workshop::Context context = shell.context(database, given->common.note);
            shell.say(print::screen(workshop::new_fair(context, wanted)));
        };
    });
}

/// "quayside=4" is so many of a design, anything else a serial.
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
    auto* command = group.add_subcommand("take", "Put journals on the list of what is taken along");
    struct Take {
        AtFair common;
        std::vector<std::string> words;
    };
    const auto given = std::make_shared<Take>();
    given->common.add_to(*command);
    command
        ->add_option("journals", given->words,
                     "Serials, or so many of a design, longest in hand first: quayside=4")
        ->required();
    given->common.add_rest_to(*command, shell);
    command->callback([&shell, given] {
        shell.action = [&shell, given] {
            const auto taking = read_taking(given->words);
            store::Database database = shell.open();
            workshop::Context context = shell.context(database, given->common.note);
            shell.say(print::screen(workshop::take_to_fair(context, given->common.number, taking)));
        };
    });
}

void add_fair_sell(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("sell", "Book journals as sold at the fair, on its day");
    struct Sell {
        AtFair common;
        std::vector<std::string> serials;
        std::string price;
    };
    const auto given = std::make_shared<Sell>();
    given->common.add_to(*command);
    command->add_option("serial", given->serials, "Serials of the journals")->required();
    command->add_option("--price", given->price,
                        "What each was sold for (else its own wanted price)");
    given->common.add_rest_to(*command, shell);
    command->callback([&shell, given] {
        shell.action = [&shell, given] {
            store::Database database = shell.open();
            workshop::Context context = shell.context(database, given->common.note);
            const auto sold =
                workshop::sell_at_fair(context, given->common.number, given->serials, given->price);
            shell.say(print::screen(sold.first, "sold"));
        };
    });
}

void add_fair_pay(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("pay", "Note what else a fair cost");
    struct Pay {
        AtFair common;
        std::string what, amount;
    };
    const auto given = std::make_shared<Pay>();
    given->common.add_to(*command);
    command->add_option("what", given->what, "What for: travel")->required();
    command->add_option("amount", given->amount, "How much")->required();
    given->common.add_rest_to(*command, shell);
    command->callback([&shell, given] {
        shell.action = [&shell, given] {
            store::Database database = shell.open();
            workshop::Context context = shell.context(database, given->common.note);
            shell.say(print::screen(
                workshop::pay_for_fair(context, given->common.number, given->what, given->amount)));
        };
    });
}

} // namespace

void add_fair_commands(Command& app, Shell& shell) {
    auto* group = app.add_subcommand("fair", "Market days: what goes along, what came of them");
    add_fair_list(*group, shell);
    add_fair_show(*group, shell);
    add_fair_new(*group, shell);
    add_fair_take(*group, shell);
    add_fair_sell(*group, shell);
    add_fair_pay(*group, shell);
}

} // namespace barrow::cli
