#include "print/selling/fair_screens.hpp"

#include "base/text.hpp"
#include "print/csv/csv_text.hpp"
#include "print/text/table.hpp"
#include "print/text/words.hpp"

#include <fmt/format.h>

namespace barrow::print {
namespace {

using base::Money;
using workshop::FairView;

std::string journals_text(std::int64_t number) {
    return base::counted(number, "journal");
}

std::int64_t taken(const FairView& view) {
    return static_cast<std::int64_t>(view.fair.journals.size());
}

std::string journal_table(const FairView& view) {
    const base::Currency& currency = view.settings.currency;
    Table table({{"Journal"},
                 {"Design"},
                 {"Cost", Align::right},
                 {"Asked", Align::right},
                 {"Sold for", Align::right},
                 {""}});
    for (std::size_t i = 0; i < view.fair.journals.size(); ++i) {
        const store::FairJournal& one = view.fair.journals[i];
        table.row({one.journal.serial, one.design_name, base::to_text(one.journal.cost(), currency),
                   base::to_text(view.asked[i], currency),
                   one.sold_for ? base::to_text(*one.sold_for, currency) : "",
                   one.journal.second ? "second" : ""});
    }
    return table.text();
}

std::string account_text(const FairView& view) {
    const base::Currency& currency = view.settings.currency;
    if (view.sold == 0) {
        std::string text;
        for (const store::FairCost& cost : view.fair.costs)
            text += fmt::format("{}{} {}", text.empty() ? "It costs: " : ", ", cost.what,
                                with_currency(cost.amount, currency));
        return text.empty() ? text : text + ".\n";
    }
    Table table({{""}, {currency.code, Align::right}});
    const auto row = [&](const std::string& what, Money amount) {
        table.row({what, base::to_text(amount, currency)});
    };
    row(fmt::format("Taken for {}", journals_text(view.sold)), view.takings);
    row("- their materials", view.materials);
    for (const store::FairCost& cost : view.fair.costs) row("- " + cost.what, cost.amount);
    row("= left for your work and overheads", view.left());
    row("- your work on those sold, at your rate", view.labour);
    row("- their overheads", view.overheads);
    row("= beyond that", view.profit());
    return table.text();
}

std::string cover_text(const FairView& view) {
    if (view.costs.is_zero() || view.fair.journals.empty()) return {};
    if (!view.to_cover || *view.to_cover > taken(view))
        return wrapped("Mind: all of them sold at the prices asked would not bring in, over their "
                       "materials, what the fair costs.",
                       page_width, 6)
               + "\n";
    return fmt::format("At the prices asked, {} {} for the fair on average.\n",
                       journals_text(*view.to_cover), *view.to_cover == 1 ? "pays" : "pay");
}

} // namespace

std::string screen(const FairView& view) {
    std::string text =
        fmt::format("Fair {}: {}, {}{}\n\n", view.fair.number, view.fair.name,
                    base::to_text(view.fair.held_on), view.fair.undone ? " (taken back)" : "");
    if (view.fair.journals.empty()) {
        text += fmt::format("Nothing is on the list yet. Take journals along: barrow fair take {} "
                            "DESIGN=NUMBER\n",
                            view.fair.number);
    } else {
        text += journal_table(view);
        text += fmt::format("\n{} on the list, {} sold, {} not.\n", journals_text(taken(view)),
                            view.sold, taken(view) - view.sold);
    }
    if (view.sold > 0) return text + "\n" + account_text(view);
    return text + account_text(view) + cover_text(view);
}

std::string screen(const workshop::Fairs& fairs) {
    if (fairs.fairs.empty()) return "No fairs yet. Note one with: barrow fair new NAME --on DATE\n";
    Table table({{"Fair", Align::right},
                 {"Day"},
                 {"Name", Align::left, true},
                 {"Taken along", Align::right},
                 {"Sold", Align::right},
                 {"Takings", Align::right},
                 {"Materials", Align::right},
                 {"Costs", Align::right},
                 {"Left", Align::right}});
    for (const FairView& view : fairs.fairs) {
        const base::Currency& currency = view.settings.currency;
        table.row({std::to_string(view.fair.number), base::to_text(view.fair.held_on),
                   view.fair.name, std::to_string(taken(view)), std::to_string(view.sold),
                   base::to_text(view.takings, currency), base::to_text(view.materials, currency),
                   base::to_text(view.costs, currency), base::to_text(view.left(), currency)});
    }
    return table.text() + "\nLeft for your work and overheads, once materials and fair are paid.\n";
}

std::string csv(const FairView& view) {
    const base::Currency& currency = view.settings.currency;
    CsvText text({"fair", "day", "journal", "design", "materials", "labour", "overheads", "asked",
                  "sold_for"});
    const auto money = [&](Money amount) {
        return CsvCell::number(base::to_text(amount, currency));
    };
    for (std::size_t i = 0; i < view.fair.journals.size(); ++i) {
        const store::FairJournal& one = view.fair.journals[i];
        text.row({CsvCell::number(std::to_string(view.fair.number)),
                  base::to_text(view.fair.held_on), one.journal.serial, one.design_name,
                  money(one.journal.materials), money(one.journal.labour),
                  money(one.journal.overheads), money(view.asked[i]),
                  one.sold_for ? money(*one.sold_for) : CsvCell::number("")});
    }
    return text.text();
}

std::string csv(const workshop::Fairs& fairs) {
    CsvText text(
        {"fair", "day", "name", "taken_along", "sold", "takings", "materials", "costs", "left"});
    for (const FairView& view : fairs.fairs) {
        const auto money = [&](Money amount) {
            return CsvCell::number(base::to_text(amount, view.settings.currency));
        };
        const auto number = [](std::int64_t count) {
            return CsvCell::number(std::to_string(count));
        };
        text.row({number(view.fair.number), base::to_text(view.fair.held_on), view.fair.name,
                  number(taken(view)), number(view.sold), money(view.takings),
                  money(view.materials), money(view.costs), money(view.left())});
    }
    return text.text();
}

} // namespace barrow::print
