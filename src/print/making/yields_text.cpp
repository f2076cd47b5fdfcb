#include "print/making/yields.hpp"

#include "layout/plan.hpp"
#include "print/making/cautions.hpp"
#include "print/making/cut_steps.hpp"
#include "print/making/plan_drawing.hpp"
#include "print/text/words.hpp"
#include "print/write/terminal.hpp"

#include <fmt/format.h>

namespace barrow::print {
namespace {

using base::Money;
using workshop::Yields;

/// What a filler is worth: to the unit of the currency's coin, a half and more rounded up.
std::string worth_text(const Yields& yields, const base::Rational& worth) {
    const base::Currency& currency = yields.settings.currency;
    const base::Rational minor = worth * base::Rational(base::minor_per_major(currency));
    return base::to_text(Money::of_minor(minor.rounded()), currency);
}

void add_heading(Blocks& blocks, const Yields& yields) {
    const store::Offcut& offcut = yields.offcut.offcut;
    blocks.add(Heading{fmt::format(
        "Offcut {} of {} ({}): {}, {}, {} in the book", offcut.code, yields.material.code,
        yields.material.name, size_text(yields.material.form, offcut.size, yields.settings.unit),
        yields.age_days < 1 ? "kept today" : "kept for " + age_text(yields.age_days),
        with_currency(yields.offcut.value, yields.settings.currency))});
    for (const std::int64_t batch : yields.reserved_for)
        blocks.under(Text{fmt::format("It is reserved for batch {}.", batch)});
}

Table fillers_table(const Yields& yields) {
    Table table({{"Filler"},
                 {"Design", Kind::label},
                 {"Size", Kind::length},
                 {"worth", Kind::money},
                 {"alone", Kind::count},
                 {"chosen", Kind::count}});
    for (const workshop::YieldLine& line : yields.lines)
        table.row({line.filler, link(Link::To::design, line.design),
                   size_text(yields.material.form, line.size, yields.settings.unit),
                   Cell(worth_text(yields, line.worth), Kind::money), count(line.alone),
                   line.chosen == 0 ? Cell() : count(line.chosen)});
    return table;
}

Drawing drawing_of(const Yields& yields, const layout::Plan& plan) {
    DrawingWords words;
    words.title = fmt::format("{} {}: offcut {}", yields.material.code, yields.material.name,
                              yields.offcut.offcut.code);
    for (const std::size_t line : yields.choice.which)
        words.pieces.push_back(yields.lines[line].filler);
    words.measure = drawn_measure(yields.material.form, yields.settings.unit);
    return {drawing(yields.choice.job, plan, words)};
}

std::string worth_sentence(const Yields& yields, bool keeps) {
    const base::Currency& currency = yields.settings.currency;
    return fmt::format(
        "They are worth {} {} in all; the part of the offcut they take cost {}{}. {}",
        worth_text(yields, yields.worth), currency.code, base::to_text(yields.pays, currency),
        keeps ? fmt::format(", and {} goes back with what is kept",
                            base::to_text(yields.offcut.value - yields.pays, currency))
              : "",
        yields.choice.outcome.status == layout::Status::optimal
            ? "No choice is worth more; this is proven."
            : "A choice worth a little more may exist; none was found.");
}

void add_choice(Blocks& blocks, const Yields& yields, const layout::Plan& plan) {
    const base::Form form = yields.material.form;
    const base::Unit unit = yields.settings.unit;
    std::string gives;
    for (const workshop::YieldLine& line : yields.lines)
        if (line.chosen > 0)
            gives += fmt::format("{}{} {} of {} {}", gives.empty() ? "" : "; ", line.chosen,
                                 line.filler, line.design, size_text(form, line.size, unit));
    blocks.add(cut_steps(form, plan, yields.choice.job.stock[plan.stock], unit), 4);
    blocks.under(Text{"gives " + gives, 6}, 4);
    const std::string kept = kept_sizes(form, plan, unit);
    if (!kept.empty()) blocks.under(Text{"keep  " + kept, 6}, 4);
    blocks.under(drawing_of(yields, plan));
    blocks.add(Text{worth_sentence(yields, !kept.empty())});
}

} // namespace

Blocks blocks(const Yields& yields) {
    Blocks blocks("Offcut " + yields.offcut.offcut.code);
    add_heading(blocks, yields);
    blocks.add(fillers_table(yields));
    const layout::Plan* plan = yields.choice.plan();
    if (yields.lines.empty()) {
        blocks.add(
            Text{fmt::format("{} filler that is cut from {}.",
                             yields.only.empty() ? "No design has a" : yields.only + " has no",
                             yields.material.code)});
        blocks.under(Text{"A design says under [[filler]] what one is worth. "
                          "Parts that fit: barrow offcut fits"});
    } else if (plan == nullptr) {
        blocks.add(Text{"None of them fits into it. Parts that fit: barrow offcut fits"});
    } else {
        add_choice(blocks, yields, *plan);
    }
    std::string codes;
    for (const std::string& code : yields.left_out) codes += " " + code;
    if (!codes.empty())
        blocks.under(Text{"Left out, because they cannot be worked out as they are:" + codes, 2});
    if (plan == nullptr) return blocks;
    if (yields.material.form == base::Form::sheet) add_how_to_read(blocks);
    blocks.add(cautions(yields.hazards));
    return blocks;
}

std::string screen(const Yields& yields) {
    return terminal(blocks(yields));
}

} // namespace barrow::print
