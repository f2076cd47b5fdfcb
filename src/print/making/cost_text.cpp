#include "print/making/cost.hpp"

#include "base/text.hpp"
#include "print/making/papers.hpp"
#include "print/making/warnings.hpp"
#include "print/text/words.hpp"
#include "print/write/terminal.hpp"
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

Table lines_table(const workshop::Costing& costing, std::size_t run) {
    const base::Currency& currency = costing.settings.currency;
    Table table({{"Part"},
                 {"Material", Kind::label},
                 {"Takes", Kind::quantity},
                 {"New", Kind::money},
                 {"Offcuts", Kind::money},
                 {"Cost", Kind::money},
                 {"of which waste", Kind::money},
                 {"", Kind::text, false, "How"}});
    const auto amount = [&](Money sum) { return sum.is_zero() ? Cell() : money(sum, currency); };
    for (const Line& line : costing.estimate.lines) {
        if (line.origin.run != run) continue;
        table.row({line.part, link(Link::To::material, line.material),
                   quantity_text(line, costing.settings.unit), amount(line.cost_new),
                   amount(line.cost_offcuts), money(line.cost, currency), amount(line.waste_cost),
                   how_made(costing.runs[run], line, costing.settings.unit)});
    }
    return table;
}

Fact labour_fact(const workshop::Costing& costing, const RunTotals& totals) {
    const base::Currency& currency = costing.settings.currency;
    const std::string minutes = minutes_text(totals.minutes);
    if (const auto& rate = costing.settings.per_hour)
        return {"Labour", money(totals.labour, currency),
                fmt::format("{} at {} an hour", minutes, base::to_text(*rate, currency)), false};
    return {"Labour", Cell(), minutes + "; labour not counted: set hourly-rate", false};
}

Facts totals_of(const workshop::Costing& costing, std::size_t run) {
    const base::Currency& currency = costing.settings.currency;
    const RunTotals& totals = costing.estimate.runs[run];
    const char* base_words = costing.settings.overheads_on == costing::Rates::Base::labour
                                 ? "labour"
                                 : "materials and labour";
    const auto fact = [&](const char* name, Money sum, const std::string& how = {}) {
        return Fact{name, money(sum, currency), how, false};
    };
    return {"",
            currency.code,
            {{{},
              {fact("Materials", totals.materials), labour_fact(costing, totals),
               fact("Overheads", totals.overheads,
                    fmt::format("{} of {}", percent_text(costing.settings.overheads), base_words)),
               fact("Total", totals.total)}}}};
}

void add_price(Blocks& blocks, const workshop::Costing& costing, std::size_t run) {
    const base::Currency& currency = costing.settings.currency;
    if (!costing.prices[run]) {
        blocks.add(
            Text{fmt::format("Without labour, one journal costs {}.",
                             with_currency(costing.estimate.runs[run].unit_cost, currency))});
        blocks.under(Text{"There is no price to ask until labour is counted. Say what an hour of "
                          "your work costs:"});
        blocks.under(Text{"barrow settings hourly-rate 12"}, 2);
        return;
    }
    const costing::Price& price = *costing.prices[run];
    blocks.add(Text{fmt::format("One journal costs {}. Ask {} on the stall.",
                                with_currency(costing.estimate.runs[run].unit_cost, currency),
                                with_currency(price.asked, currency))});
    blocks.under(Text{fmt::format("Margin {} of the price, markup {} on the cost: {} is yours.",
                                  percent_text(price.margin), percent_text(price.markup),
                                  base::to_text(price.profit, currency))});
    blocks.under(Text{fmt::format(
        "(A margin of {} was wanted, which is {} exactly; then up to the next price point.)",
        percent_text(price.wanted_margin), base::to_text(price.exact, currency))});
}

void add_shortages(Blocks& blocks, const workshop::Costing& costing) {
    if (costing.estimate.shortages.empty()) return;
    Table table({{"Short of", Kind::label},
                 {"", Kind::text, false, "Material"},
                 {"", Kind::quantity, false, "Units"},
                 {"to buy", Kind::money}});
    bool all_priced = true;
    std::string freight;
    for (const costing::Shortage& shortage : costing.estimate.shortages) {
        all_priced = all_priced && shortage.cost.has_value();
        if (shortage.cost && shortage.freight > base::Rational(0))
            freight += fmt::format("{}{} {}", freight.empty() ? "" : ", ", shortage.material,
                                   percent_text(shortage.freight));
        table.row({link(Link::To::material, shortage.material), shortage.name,
                   workshop::units_text(shortage.form, shortage.bulk_is_mass, shortage.units),
                   shortage.cost ? money(*shortage.cost, costing.settings.currency)
                                 : Cell("no price known")});
    }
    blocks.add(table);
    blocks.under(Text{all_priced ? "The cost above includes what is short, at the price to buy it."
                                 : "The cost above does not include what has no price."});
    if (!freight.empty())
        blocks.under(Text{fmt::format(
            "Freight and tax are in it as on the last receipt, in percent of the goods: {}.",
            freight)});
}

} // namespace

Blocks blocks(const workshop::Costing& costing) {
    Blocks blocks("Cost and price");
    for (std::size_t run = 0; run < costing.runs.size(); ++run) {
        const costing::Run& own = costing.runs[run];
        blocks.add(Heading{
            fmt::format("{}: {}", own.design.name, base::counted(own.journals, "journal"))});
        blocks.add(papers_table(costing, run));
        blocks.add(lines_table(costing, run));
        blocks.add(totals_of(costing, run));
        add_price(blocks, costing, run);
    }
    add_shortages(blocks, costing);
    for (const design::Warning& warning : costing.warnings) blocks.under(warning_text(warning));
    return blocks;
}

std::string screen(const workshop::Costing& costing) {
    return terminal(blocks(costing));
}

} // namespace barrow::print
