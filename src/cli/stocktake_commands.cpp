#include "cli/commands.hpp"

#include "base/error.hpp"
#include "cli/views.hpp"
#include "print/stock/stocktake.hpp"
#include "print/text/words.hpp"
#include "reading/rows.hpp"
#include "workshop/stock/stocktake.hpp"

#include <fmt/format.h>

#include <memory>

namespace barrow::cli {
namespace {

void add_start(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("start", "Begin a stocktake");
    struct Given {
        std::string place, note;
    };
    const auto given = std::make_shared<Given>();
    command->add_option("--place", given->place, "Only what is kept there");
    command->add_option("--note", given->note, "Anything worth knowing");
    command->add_flag("-n,--dry-run", shell.dry_run, "Only say what would be kept");
    command->callback([&shell, given] {
        shell.action = [&shell, given] {
            store::Database database = shell.open();
            workshop::Context context = shell.context(database, given->note);
            const auto stocktake = workshop::start_stocktake(context, given->place);
            if (shell.dry_run) {
                shell.say(fmt::format("Stocktake {} would be opened.\n", stocktake.number));
                return;
            }
            shell.say(fmt::format("Stocktake {} is open. Enter what is there with: "
                                  "barrow stocktake enter CODE COUNTED\n",
                                  stocktake.number));
        };
    });
}

void add_enter(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("enter", "Enter what was counted");
    struct Given {
        std::string code, counted, from;
    };
    const auto given = std::make_shared<Given>();
    command->add_option("code", given->code, "A material, or an offcut's label");
    command->add_option("counted", given->counted, "Units on the shelf (an offcut: 1 or 0)");
    command->add_option("--from", given->from, "A CSV file with the columns code, counted")
        ->type_name("FILE");
    command->add_flag("-n,--dry-run", shell.dry_run, "Only say what would be kept");
    command->callback([&shell, given] {
        shell.action = [&shell, given] {
            if (given->from.empty() == given->code.empty()
                || given->code.empty() != given->counted.empty())
                throw base::Error(base::Kind::usage, "it is not clear what was counted",
                                  "write: barrow stocktake enter CODE COUNTED, or --from FILE");
            std::vector<workshop::Row> rows;
            if (given->from.empty()) {
                rows.push_back({{}, {}, {{"code", given->code}, {"counted", given->counted}}});
            } else {
                rows = reading::rows_of(reading::read_csv(shell.read_file(given->from), given->from,
                                                          workshop::count_fields()));
            }
            store::Database database = shell.open();
            workshop::Context context = shell.context(database);
            shell.say(fmt::format("{} entered.\n", workshop::enter_counts(context, rows)));
        };
    });
}

void add_stocktake_show(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("show", "What differs, and what is still to be counted");
    const auto number = std::make_shared<std::int64_t>(0);
    command->add_option("number", *number, "An earlier stocktake (else the open one)");
    command->callback([&shell, number] {
        shell.action = [&shell, number] {
            store::Database database = shell.open();
            const auto sheet = workshop::count_sheet(database, *number);
            shell.show([&] { return print::screen(sheet); },
                       [&] { return print::document(sheet); });
        };
    });
}

void add_post(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("post", "Correct the book by what differs");
    struct Given {
        std::string note;
    };
    const auto given = std::make_shared<Given>();
    command->add_option("--note", given->note, "Why it differs");
    command->add_flag("-n,--dry-run", shell.dry_run, "Only say what would be booked");
    command->callback([&shell, given] {
        shell.action = [&shell, given] {
            store::Database database = shell.open();
            workshop::Context context = shell.context(database, given->note);
            const auto posted = workshop::post_stocktake(context);
            const auto settings = workshop::read_settings(database);
            shell.say(fmt::format("{} {}, {} written off (entry {}).\n", posted.corrected,
                                  shell.dry_run ? "would be corrected" : "corrected",
                                  print::with_currency(posted.missing, settings.currency),
                                  posted.posting));
        };
    });
}

void add_drop(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("drop", "Close the open stocktake without correcting");
    command->add_flag("-n,--dry-run", shell.dry_run, "Only say what would be done");
    command->callback([&shell] {
        shell.action = [&shell] {
            store::Database database = shell.open();
            workshop::Context context = shell.context(database);
            const std::int64_t number = workshop::drop_stocktake(context).number;
            shell.say(fmt::format("Stocktake {} {} dropped.\n", number,
                                  shell.dry_run ? "would be" : "is"));
        };
    });
}

} // namespace

void add_stocktake_commands(Command& app, Shell& shell) {
    auto* group = app.add_subcommand("stocktake", "Count what is there and put the book right");
    add_start(*group, shell);
    add_enter(*group, shell);
    add_stocktake_show(*group, shell);
    add_post(*group, shell);
    add_drop(*group, shell);
}

} // namespace barrow::cli
