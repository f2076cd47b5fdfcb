#include "cli/commands.hpp"

#include "base/error.hpp"
#include "cli/files.hpp"
#include "cli/options.hpp"
#include "cli/shell.hpp"
#include "cli/tables.hpp"
#include "print/books/exports.hpp"
#include "print/books/log.hpp"
#include "workshop/books/exports.hpp"
#include "workshop/books/history.hpp"
#include "workshop/books/reports.hpp"
#include "workshop/books/reverse.hpp"
#include "workshop/stock/stockroom.hpp"

#include <fmt/format.h>

#include <array>
#include <filesystem>
#include <memory>
#include <ostream>

namespace barrow::cli {
namespace {

/// What a report may be asked.
struct ReportGiven {
    TableOptions options;
    std::string on, from, to;
    std::int64_t days = 180;
};

base::Date date_or(const std::string& text, const char* option, const base::Date& otherwise) {
    return text.empty() ? otherwise : base::read_date(text, option);
}

/// A year back, to the first of a month, so that whole months are shown.
base::Date a_year_before(const base::Date& today) {
    const std::chrono::year_month_day parts{today.day()};
    const auto first = (parts.year() / parts.month() - std::chrono::months{11}) / 1;
    return base::Date(std::chrono::sys_days(first));
}

/// Adds a report: `ask(database, given, today)` answers, `options` says what may be asked.
template <typename Ask, typename Options>
void add_report(Command& group, Shell& shell, const char* name, const char* about, Ask ask,
                Options options) {
    auto* command = group.add_subcommand(name, about);
    const auto given = std::make_shared<ReportGiven>();
    options(*command, *given);
    given->options.add_to(*command);
    command->callback([&shell, given, ask] {
        store::Database database = shell.open();
        show_table(shell, given->options, ask(database, *given, shell.today()));
    });
}

void add_period(Command& command, ReportGiven& given, bool required) {
    auto* from = command.add_option("--from", given.from, "First day")->type_name("DATE");
    auto* to = command.add_option("--to", given.to, "Last day")->type_name("DATE");
    if (!required) return;
    from->required();
    to->required();
}

void add_log(Command& app, Shell& shell) {
    auto* command = app.add_subcommand("log", "The latest entries in the book");
    const auto most = std::make_shared<std::int64_t>(20);
    command->add_option("--last", *most, "How many to show")->range(1, 100'000);
    command->callback([&shell, most] {
        store::Database database = shell.open();
        const auto lines = workshop::log(database, *most);
        shell.show([&] { return print::screen(lines); }, [&] { return print::document(lines); });
    });
}

void add_reverse(Command& app, Shell& shell) {
    auto* command = app.add_subcommand("reverse", "Reverse an entry");
    const auto entry = std::make_shared<std::int64_t>(0);
    command->add_option("entry", *entry, "Its number (see: barrow log)")->required();
    add_note(*command, shell, "Why");
    add_dry_run(*command, shell);
    command->callback([&shell, entry] {
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        const auto reversed = workshop::reverse(context, *entry);
        shell.say(fmt::format("Entry {} ({}, {}) {} reversed by entry {}.\n", *entry,
                              reversed.original.kind, base::to_text(reversed.original.made_on),
                              shell.dry_run ? "would be" : "is", reversed.posting));
    });
}

using workshop::Subject;

struct About {
    Subject of;
    const char* code; ///< what names one
};

constexpr std::array<About, 5> subjects = {
    {{Subject::material, "Code of the material"},
     {Subject::lot, "Number of the lot (see: barrow lots CODE)"},
     {Subject::offcut, "The offcut's label"},
     {Subject::batch, "Number of the batch"},
     {Subject::journal, "Serial of the journal"}}};

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
    write_file(given.file, text);
    shell.remark(
        fmt::format("{} rows of {} written to {}.\n", table.rows.size(), table.what, given.file));
}

} // namespace

void add_report_commands(Command& app, Shell& shell) {
    auto* group = app.add_subcommand(
        "report", "Stock on a past day, what was used, what lies about, the year");
    add_report(
        *group, shell, "stock", "Stock and its value at the end of a day",
        [](store::Database& database, const ReportGiven& given, const base::Date& today) {
            return workshop::stock_on(database, date_or(given.on, "--on", today), today);
        },
        [](Command& command, ReportGiven& given) {
            command.add_option("--on", given.on, "The day (else today)")->type_name("DATE");
        });
    add_report(
        *group, shell, "usage", "What was used of each material, month by month",
        [](store::Database& database, const ReportGiven& given, const base::Date& today) {
            const base::Date to = date_or(given.to, "--to", today);
            return workshop::usage(database, date_or(given.from, "--from", a_year_before(to)), to);
        },
        [](Command& command, ReportGiven& given) { add_period(command, given, false); });
    add_report(
        *group, shell, "slow", "Materials that have not been used for long",
        [](store::Database& database, const ReportGiven& given, const base::Date& today) {
            return workshop::slow_stock(database, given.days, today);
        },
        [](Command& command, ReportGiven& given) {
            command.add_option("--days", given.days, "Not used for this many days (else 180)")
                ->range(1, 100'000);
        });
    add_report(
        *group, shell, "offcuts", "The offcut box by age, oldest first",
        [](store::Database& database, const ReportGiven&, const base::Date& today) {
            return workshop::box_by_age(database, today);
        },
        [](Command&, ReportGiven&) {});
    add_report(
        *group, shell, "year", "Cost of what was made and sold in a tax year (no tax advice)",
        [](store::Database& database, const ReportGiven& given, const base::Date& today) {
            return workshop::year(database, date_or(given.from, "--from", today),
                                  date_or(given.to, "--to", today));
        },
        [](Command& command, ReportGiven& given) { add_period(command, given, true); });
}

void add_book_commands(Command& app, Shell& shell) {
    add_log(app, shell);
    add_reverse(app, shell);
}

void add_history_commands(Command& app, Shell& shell) {
    auto* group =
        app.add_subcommand("history", "Everything that happened to one thing, entry by entry");
    for (const About& about : subjects) {
        const std::string name(workshop::name_of(about.of));
        auto* command = group->add_subcommand(
            name, (name == "offcut" ? "History of an " : "History of a ") + name);
        struct Given {
            std::string code;
            TableOptions options;
        };
        const auto given = std::make_shared<Given>();
        command->add_option("code", given->code, about.code)->required();
        given->options.add_to(*command);
        command->callback([&shell, given, of = about.of] {
            store::Database database = shell.open();
            show_table(shell, given->options, workshop::history(database, of, given->code));
        });
    }
}

void add_export_commands(Command& app, Shell& shell) {
    auto* group = app.add_subcommand("export", "Write a table as CSV, for a spreadsheet");
    for (const std::string& what : workshop::export_names()) {
        auto* command = group->add_subcommand(what, fmt::format("Write the {} as CSV", what));
        const auto given = std::make_shared<ExportGiven>();
        command->add_option("file", given->file, "The file to write (else it is printed)");
        command->add_flag("--replace", given->replace, "Replace the file if it is there already");
        command->callback([&shell, given, what] {
            store::Database database = shell.open();
            write(shell, *given, workshop::export_table(database, what));
        });
    }
}

} // namespace barrow::cli
