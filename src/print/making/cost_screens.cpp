#include "print/text/screens.hpp"

#include "base/hazard.hpp"
#include "base/text.hpp"
#include "print/making/bench_screens.hpp"
#include "print/making/papers.hpp"
#include "print/making/warnings.hpp"
#include "print/text/table.hpp"
#include "print/text/words.hpp"
#include "workshop/shared/quantity_text.hpp"

#include <fmt/format.h>

namespace barrow::print {

using base::Form;
using base::Money;
using costing::Line;
using costing::RunTotals;

namespace {

std::string quantity_text(const Line& line, base::Unit unit) {
    if (line.form == Form::sheet) return base::counted(line.quantity, "piece");
    return measure_text(line.form, line.bulk_is_mass, line.quantity, unit);
}

std::string how_made(const costing::Run& run, const Line& line, base::Unit unit) {
    if (line.joined_from > 1) return fmt::format("joined from {}", line.joined_from);
    const std::size_t part = line.origin.part;
    const std::size_t parts = run.design.parts.size();
    const bool filler = part >= parts && part < parts + run.design.fillers.size();
    if (!filler) return "";
    if (line.from_box == 0) return "from what is left over";
    if (line.from_box == line.quantity) return "from the offcut box";
    Line boxed = line;
    boxed.quantity = line.from_box;
    return quantity_text(boxed, unit) + " from the offcut box";
}

std::string lines_text(const workshop::Costing& costing, std::size_t run) {
    const base::Currency& currency = costing.settings.currency;
    Table table({{"Part"},
                 {"Material"},
                 {"Takes", Align::right},
                 {"New", Align::right},
                 {"Offcuts", Align::right},
                 {"Cost", Align::right},
                 {"of it waste", Align::right},
                 {""}});
    const auto amount = [&](Money money) {
        return money.is_zero() ? std::string() : base::to_text(money, currency);
    };
    for (const Line& line : costing.estimate.lines) {
        if (line.origin.run != run) continue;
        table.row({line.part, line.material, quantity_text(line, costing.settings.unit),
                   amount(line.cost_new), amount(line.cost_offcuts),
                   base::to_text(line.cost, currency), amount(line.waste_cost),
                   how_made(costing.runs[run], line, costing.settings.unit)});
    }
    return table.text();
}

std::string totals_text(const workshop::Costing& costing, std::size_t run) {
    const base::Currency& currency = costing.settings.currency;
    const RunTotals& totals = costing.estimate.runs[run];
    const std::string base_words = costing.settings.overheads_on == costing::Rates::Base::labour
                                       ? "labour"
                                       : "materials and labour";
    Table table({{""}, {currency.code, Align::right}, {""}});
    table.row({"Materials", base::to_text(totals.materials, currency)});
    table.row({"Labour", base::to_text(totals.labour, currency),
               fmt::format("{} at {} an hour", minutes_text(totals.minutes),
                           base::to_text(costing.settings.per_hour, currency))});
    table.row({"Overheads", base::to_text(totals.overheads, currency),
               fmt::format("{} of {}", percent_text(costing.settings.overheads), base_words)});
    table.row({"Together", base::to_text(totals.total, currency)});
    return table.text();
}

std::string price_text(const workshop::Costing& costing, std::size_t run) {
    const base::Currency& currency = costing.settings.currency;
    const costing::Price& price = costing.prices[run];
    return fmt::format(
        "One journal costs {}. Ask {} on the stall.\n"
        "Margin {} of the price, markup {} on the cost: {} is yours.\n"
        "(A margin of {} was wanted, which is {} exactly; then up to the next price point.)\n",
        with_currency(costing.estimate.runs[run].unit_cost, currency),
        with_currency(price.asked, currency), percent_text(price.margin),
        percent_text(price.markup), base::to_text(price.profit, currency),
        percent_text(price.wanted_margin), base::to_text(price.exact, currency));
}

std::string shortages_text(const workshop::Costing& costing) {
    if (costing.estimate.shortages.empty()) return {};
    Table table({{"Short of"}, {""}, {"", Align::right}, {"to buy", Align::right}});
    for (const costing::Shortage& shortage : costing.estimate.shortages)
        table.row({shortage.material, shortage.name,
                   workshop::units_text(shortage.form, shortage.bulk_is_mass, shortage.units),
                   shortage.cost ? base::to_text(*shortage.cost, costing.settings.currency)
                                 : "no price known"});
    std::string text = "\n" + table.text();
    for (const costing::Shortage& shortage : costing.estimate.shortages)
        if (!shortage.cost) return text + "What has no price is missing from the cost above.\n";
    return text + "What is short is in the cost above at what it costs to buy.\n";
}

/// Journals of one run with the same papers are one line.
std::string journals_text(const workshop::Made& made) {
    Table table(
        {{"Journals"}, {"Design"}, {"each cost", Align::right}, {"Papers", Align::left, true}});
    const auto& journals = made.journals;
    for (std::size_t first = 0, end = 0; first < journals.size(); first = end) {
        const std::string papers = papers_text(journals[first].papers);
        base::Money cost;
        for (; end < journals.size() && journals[end].run == journals[first].run
               && papers_text(journals[end].papers) == papers;
             ++end)
            cost += journals[end].cost();
        const auto count = static_cast<std::int64_t>(end - first);
        const auto run = static_cast<std::size_t>(journals[first].run);
        table.row({count == 1 ? journals[first].serial
                              : journals[first].serial + " to " + journals[end - 1].serial,
                   made.costing.runs[run].design.name,
                   base::to_text(base::times(cost, base::Rational::of(1, count)),
                                 made.costing.settings.currency),
                   papers});
    }
    return table.text();
}

} // namespace

std::string cautions(const std::vector<std::string>& hazards) {
    std::string text;
    for (const std::string& name : hazards)
        if (const auto hazard = base::read_hazard(name))
            text += wrapped("! " + std::string(base::caution(*hazard)), page_width, 2) + "\n";
    if (!text.empty())
        text += "  Labels of products, local rules and licensed practice come first.\n";
    return text;
}

std::string screen(const workshop::Costing& costing) {
    std::string text;
    for (std::size_t run = 0; run < costing.runs.size(); ++run) {
        const costing::Run& own = costing.runs[run];
        if (!text.empty()) text += "\n";
        text += fmt::format("{}: {}\n\n", own.design.name, base::counted(own.journals, "journal"));
        const std::string papers = papers_text(costing, run);
        if (!papers.empty()) text += papers + "\n";
        text += lines_text(costing, run) + "\n" + totals_text(costing, run) + "\n"
                + price_text(costing, run);
    }
    text += shortages_text(costing);
    for (const design::Warning& warning : costing.warnings) text += warning_text(warning);
    return text;
}

std::string screen(const workshop::Made& made) {
    std::string text =
        fmt::format("Batch {} is made (entry {}).\n\n", made.batch.number, made.posting);
    text += journals_text(made);
    if (!made.offcuts.empty())
        text += "\n" + labels(made.offcuts, made.materials, made.costing.settings.unit);
    if (!made.continued.empty()) {
        std::string codes;
        for (const std::string& code : made.continued) codes += " " + code;
        text += "\nCut further, and still there under their labels:" + codes + "\n";
    }
    if (!made.costing.warnings.empty()) text += "\n";
    for (const design::Warning& warning : made.costing.warnings) text += warning_text(warning);
    return text;
}

namespace {

/// What is on order and may not be there in time.
std::string doubts_text(const workshop::Reorder& reorder) {
    std::string text;
    for (const workshop::Reorder::Doubt& doubt : reorder.doubts) {
        const std::string units =
            workshop::units_text(doubt.form, doubt.bulk_is_mass, doubt.waiting.units);
        const std::string day = base::to_text(doubt.waiting.expected_on);
        const std::string words =
            doubt.counted
                ? fmt::format("Mind: order {} should have brought {} of {} by {}. Counted all the "
                              "same.",
                              doubt.waiting.order, units, doubt.material, day)
                : fmt::format("Mind: order {} brings {} of {} only on {}: too late, not counted.",
                              doubt.waiting.order, units, doubt.material, day);
        text += wrapped(words, page_width, 6) + "\n";
    }
    return text;
}

} // namespace

std::string screen(const workshop::Reorder& reorder) {
    std::string text;
    if (!reorder.runs.empty()) {
        text += fmt::format("To have by {}:\n", base::to_text(reorder.wanted_by));
        Table runs({{"Journals", Align::right},
                    {"Design"},
                    {"finished already", Align::right},
                    {"to make", Align::right}});
        for (const workshop::Reorder::Run& run : reorder.runs)
            runs.row({std::to_string(run.wanted), run.name,
                      run.finished > 0 ? std::to_string(run.finished) : "",
                      std::to_string(run.wanted - run.finished)});
        text += runs.text() + "\n";
    }
    if (reorder.orders.empty())
        return text + "Nothing to order: shelf, offcut box and orders on their way cover it.\n"
               + doubts_text(reorder);
    const base::Currency& currency = reorder.settings.currency;
    for (const supply::SupplierOrder& order : reorder.orders) {
        text += order.supplier.empty()
                    ? std::string("Without a supplier:\n")
                    : fmt::format("{} ({}): order by {}{}\n", order.supplier_name, order.supplier,
                                  base::to_text(order.order_by),
                                  order.late ? ", which has passed" : "");
        Table table({{"Code"},
                     {"Material"},
                     {"for journals", Align::right},
                     {"to level", Align::right},
                     {"on order", Align::right},
                     {"packs", Align::right},
                     {"that is", Align::right},
                     {"cost", Align::right}});
        for (const supply::OrderLine& line : order.lines) {
            const supply::Supply& s = line.supply;
            const auto units = [&](std::int64_t n) {
                return n == 0 ? std::string() : workshop::units_text(s.form, s.bulk_is_mass, n);
            };
            table.row({s.material, s.name, units(line.for_journals), units(line.for_level),
                       units(s.on_order), std::to_string(line.packs), units(line.units),
                       line.cost ? base::to_text(*line.cost, currency) : "no price"});
        }
        text += table.text();
        text += fmt::format("Together {}{}\n\n", with_currency(order.total, currency),
                            order.total_is_whole ? "" : " and what has no price");
    }
    text += doubts_text(reorder);
    if (reorder.doubts.empty()) text.pop_back();
    return text;
}

} // namespace barrow::print
