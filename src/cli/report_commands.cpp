#include "cli/commands.hpp"

#include "cli/tables.hpp"
#include "workshop/books/reports.hpp"

#include <memory>

namespace barrow::cli {
namespace {

/// What a report may be asked.
struct ReportGiven {
    TableOptions options;
    std::string on, from, to;
    long days = 180;
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
        shell.action = [&shell, given, ask] {
            store::Database database = shell.open();
            show_table(shell, given->options, ask(database, *given, shell.today()));
        };
    });
}

void add_period(Command& command, ReportGiven& given, bool required) {
    auto* from = command.add_option("--from", given.from, "First day")->type_name("DATE");
    auto* to = command.add_option("--to", given.to, "Last day")->type_name("DATE");
    if (!required) return;
    from->required();
    to->required();
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
        *group, shell, "slow", "Materials that were not used for long",
        [](store::Database& database, const ReportGiven& given, const base::Date& today) {
            return workshop::slow_stock(database, given.days, today);
        },
        [](Command& command, ReportGiven& given) {
            command.add_option("--days", given.days, "Not used for so many days (else 180)")
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

} // namespace barrow::cli
