#include "cli/commands.hpp"

#include "print/books/log.hpp"
#include "workshop/books/reverse.hpp"
#include "workshop/stock/stockroom.hpp"

#include <fmt/format.h>

#include <memory>

namespace barrow::cli {
namespace {

void add_log(Command& app, Shell& shell) {
    auto* command = app.add_subcommand("log", "The latest entries in the book");
    const auto most = std::make_shared<std::int64_t>(20);
    command->add_option("--last", *most, "How many to show")->range(1, 100'000);
    command->callback([&shell, most] {
        shell.action = [&shell, most] {
            store::Database database = shell.open();
            const auto lines = workshop::log(database, *most);
            shell.show([&] { return print::screen(lines); },
                       [&] { return print::document(lines); });
        };
    });
}

void add_reverse(Command& app, Shell& shell) {
    auto* command = app.add_subcommand("reverse", "Take an entry back");
    struct Given {
        std::int64_t entry = 0;
        std::string note;
    };
    const auto given = std::make_shared<Given>();
    command->add_option("entry", given->entry, "Its number (see: barrow log)")->required();
    command->add_option("--note", given->note, "Why");
    command->add_flag("-n,--dry-run", shell.dry_run, "Only say whether it could be done");
    command->callback([&shell, given] {
        shell.action = [&shell, given] {
            store::Database database = shell.open();
            workshop::Context context = shell.context(database, given->note);
            const auto reversed = workshop::reverse(context, given->entry);
            shell.say(fmt::format("Entry {} ({}, {}) {} reversed by entry {}.\n", given->entry,
                                  reversed.original.kind, base::to_text(reversed.original.made_on),
                                  shell.dry_run ? "would be" : "is", reversed.posting));
        };
    });
}

} // namespace

void add_book_commands(Command& app, Shell& shell) {
    add_log(app, shell);
    add_reverse(app, shell);
}

} // namespace barrow::cli
