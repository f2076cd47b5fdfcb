#include "print/making/bench_screens.hpp"

#include "base/text.hpp"
#include "layout/plan.hpp"
#include "print/making/cut_steps.hpp"
#include "print/text/screens.hpp"
#include "print/text/table.hpp"
#include "print/text/words.hpp"

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

std::string heading(const Yields& yields) {
    const store::Offcut& offcut = yields.offcut.offcut;
    std::string text =
        wrapped(fmt::format("Offcut {} of {} ({}): {}, {}, {} in the book", offcut.code,
                            yields.material.code, yields.material.name,
                            size_text(yields.material.form, offcut.size, yields.settings.unit),
                            yields.age_days < 1 ? "kept today"
                                                : "kept for " + age_text(yields.age_days),
                            with_currency(yields.offcut.value, yields.settings.currency)),
                page_width, 2)
        + "\n";
    for (const std::int64_t batch : yields.reserved_for)
        text += fmt::format("It is reserved for batch {}.\n", batch);
    return text;
}

std::string fillers_text(const Yields& yields) {
    Table table({{"Filler"},
                 {"Design"},
                 {"Size", Align::right},
                 {"worth", Align::right},
                 {"alone", Align::right},
                 {"chosen", Align::right}});
    for (const workshop::YieldLine& line : yields.lines)
        table.row({line.filler, line.design,
                   size_text(yields.material.form, line.size, yields.settings.unit),
                   worth_text(yields, line.worth), std::to_string(line.alone),
                   line.chosen == 0 ? "" : std::to_string(line.chosen)});
    return table.text();
}

std::string choice_text(const Yields& yields, const layout::Plan& plan) {
    const base::Currency& currency = yields.settings.currency;
    const base::Form form = yields.material.form;
    std::string gives;
    for (const workshop::YieldLine& line : yields.lines)
        if (line.chosen > 0)
            gives +=
                fmt::format("{}{} {} of {} {}", gives.empty() ? "" : "; ", line.chosen, line.filler,
                            line.design, size_text(form, line.size, yields.settings.unit));
    std::string text =
        indented(cut_steps(form, plan, yields.choice.job.stock[plan.stock], yields.settings.unit));
    text += "    gives " + wrapped(gives, 84, 10) + "\n";
    const std::string kept = kept_sizes(form, plan, yields.settings.unit);
    if (!kept.empty()) text += "    keep  " + wrapped(kept, 84, 10) + "\n";
    const std::string worth = worth_text(yields, yields.worth);
    const Money back = yields.offcut.value - yields.pays;
    text += "\n"
            + wrapped(
                fmt::format("Together worth {} {}; what they take of the offcut has cost {}{}. {}",
                            worth, currency.code, base::to_text(yields.pays, currency),
                            kept.empty() ? ""
                                         : fmt::format(", and {} goes back with what is kept",
                                                       base::to_text(back, currency)),
                            yields.choice.outcome.status == layout::Status::optimal
                                ? "No choice is worth more; this is proven."
                                : "A choice worth a little more may exist; none was found."),
                page_width, 0)
            + "\n";
    return text;
}

} // namespace

std::string screen(const Yields& yields) {
    std::string text = heading(yields) + "\n";
    if (!yields.lines.empty()) text += fillers_text(yields) + "\n";
    const layout::Plan* plan = yields.choice.plan();
    if (yields.lines.empty()) {
        text += fmt::format("{} filler that is cut from {}.\n"
                            "A design says under [[filler]] what one is worth. "
                            "Parts that fit: barrow offcut fits\n",
                            yields.only.empty() ? "No design has a" : yields.only + " has no",
                            yields.material.code);
    } else if (plan == nullptr) {
        text += "None of them goes into it. Parts that fit: barrow offcut fits\n";
    } else {
        text += choice_text(yields, *plan);
    }
    if (!yields.left_out.empty()) {
        std::string codes;
        for (const std::string& code : yields.left_out) codes += " " + code;
        text +=
            wrapped("Left out, for they cannot be worked out as they stand:" + codes, page_width, 2)
            + "\n";
    }
    if (plan == nullptr) return text;
    if (yields.material.form == base::Form::sheet) text += "\n" + how_to_read_cuts();
    return text + "\n" + cautions(yields.hazards);
}

} // namespace barrow::print
