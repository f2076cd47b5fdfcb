#include "cli/commands.hpp"

#include "base/error.hpp"
#include "cli/shell.hpp"
#include "print/books/exports.hpp"
#include "workshop/books/exports.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <memory>
#include <ostream>

namespace barrow::cli {
namespace {

struct ExportGiven {
    std::string file;
    bool replace = false;
};

void write(const Shell& shell, const ExportGiven& given, const workshop::ExportedTable& table) {
    if (shell.json) {
        if (!given.file.empty())
            throw base::Error(base::Kind::usage, "--json prints the table, it goes into no file",
                              "leave --json or the file out");
        shell.world().out << print::document(table);
        return;
    }
    const std::string text = print::csv(table);
    if (given.file.empty() || given.file == "-") {
        shell.world().out << text;
        return;
    }
    std::error_code not_there;
    if (!given.replace && std::filesystem::exists(given.file, not_there))
        throw base::refused(fmt::format("{} exists already", given.file),
                            "choose a new name, or replace it with --replace");
    Shell::write_file(given.file, text);
    shell.remark(
        fmt::format("{} rows of {} written to {}.\n", table.rows.size(), table.what, given.file));
}

} // namespace

void add_export_commands(Command& app, Shell& shell) {
    auto* group = app.add_subcommand("export", "Write a table as CSV, for a spreadsheet");
    for (const std::string& what : workshop::export_names()) {
        auto* command = group->add_subcommand(what, fmt::format("Write the {} as CSV", what));
        const auto given = std::make_shared<ExportGiven>();
        command->add_option("file", given->file, "The file to write (else it is printed)");
        command->add_flag("--replace", given->replace, "Replace the file if it is there already");
        command->callback([&shell, given, what] {
            shell.action = [&shell, given, what] {
                store::Database database = shell.open();
                write(shell, *given, workshop::export_table(database, what));
            };
        });
    }
}

} // namespace barrow::cli
