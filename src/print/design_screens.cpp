#include "print/screens.hpp"

#include "base/text.hpp"
#include "print/table.hpp"
#include "print/words.hpp"
#include "workshop/quantity_text.hpp"

#include <fmt/format.h>

namespace barrow::print {

using base::Length;
using design::Take;
using design::WorkedPart;

namespace {

std::string takes_text(const WorkedPart& part, base::Unit unit) {
    switch (part.take) {
    case Take::piece:
        return size_text(base::Form::sheet, {part.width.units(), part.height.units()}, unit);
    case Take::length: return run_text(part.length.units(), unit);
    case Take::loops: return base::counted(part.loops, "loop");
    case Take::count: return {};
    case Take::spread:
        return base::to_decimal(part.amount, 2) + (part.amount_is_mass ? " g" : " ml");
    }
    return {};
}

std::string cover_text(const design::WorkedCover& cover, base::Unit unit) {
    std::string text = fmt::format("Cover, lying flat: {} long, {} high\n",
                                   base::show(cover.length, unit), base::show(cover.height, unit));
    Table panels({{"Panel"}, {"from the left edge", Align::right}, {"width", Align::right}});
    for (const design::WorkedPanel& panel : cover.panels)
        panels.row({panel.name, base::show(panel.start, unit), base::show(panel.width, unit)});
    text += panels.text();
    std::string scores;
    for (const Length fold : cover.folds)
        scores += (scores.empty() ? "" : ", ") + base::show(fold, unit, true);
    if (!scores.empty())
        text += fmt::format("Score at {} {} from the left edge.\n", scores, base::symbol(unit));
    return text;
}

} // namespace

std::string screen(const std::vector<store::StoredDesign>& designs) {
    if (designs.empty()) return "No designs yet. Bring one in with: barrow design bring FILE\n";
    Table table({{"Code"}, {"Design"}, {"Text", Align::right}, {"Brought in"}, {"From"}});
    for (const store::StoredDesign& design : designs)
        table.row({design.code, design.name, std::to_string(design.number),
                   base::to_text(design.brought_on), design.file});
    return table.text();
}

std::string screen(const design::Worked& worked, base::Unit unit) {
    std::string text = worked.name + "\n\n";
    Table names({{"Name"}, {""}, {"Value", Align::right}});
    for (const design::Explanation& e : worked.explanations)
        names.row({e.name, e.formula.empty() ? "" : e.formula + " = " + e.spelled, e.value});
    if (!names.empty()) text += names.text() + "\n";
    if (worked.cover) text += cover_text(*worked.cover, unit) + "\n";
    Table parts({{"Part"}, {"Number", Align::right}, {"Takes", Align::right}, {"Material"}, {""}});
    for (const WorkedPart& part : worked.parts)
        parts.row({part.name, std::to_string(part.number), takes_text(part, unit), part.material,
                   part.joining.at.empty() ? "" : "may be joined at folds"});
    text += parts.text();
    text += fmt::format("\nWork: {} for each journal", minutes_text(worked.minutes_per_journal));
    if (worked.minutes_per_batch > base::Rational(0))
        text += fmt::format(", and {} for each batch", minutes_text(worked.minutes_per_batch));
    return text + ".\n";
}

} // namespace barrow::print
