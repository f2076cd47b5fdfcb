#include "print/text/screens.hpp"

#include "base/hazard.hpp"
#include "base/text.hpp"
#include "print/making/design_screens.hpp"
#include "print/text/table.hpp"
#include "print/text/words.hpp"
#include "workshop/shared/quantity_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>
#include <vector>

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

/// What fills a part that may be of several papers.
std::string choice_text(const design::Worked& worked, const WorkedPart& part) {
    if (!part.material.empty()) return part.material;
    for (const design::WorkedSlot& slot : worked.slots) {
        if (slot.name != part.slot) continue;
        if (!slot.reverse_of.empty()) return "reverse of " + slot.reverse_of;
        if (!slot.collection.empty()) return "any of " + slot.collection;
        return fmt::format("{}", fmt::join(slot.any_of, " or "));
    }
    return {};
}

std::string joins_text(const WorkedPart& part, base::Unit unit) {
    if (part.joining.anywhere)
        return fmt::format("may be joined anywhere, pieces of {} at least",
                           base::show(part.joining.least_piece, unit));
    std::string at;
    for (const Length join : part.joining.at)
        at += (at.empty() ? "" : ", ") + base::show(join, unit, true);
    return at.empty() ? at : "may be joined at " + at;
}

std::string parts_text(const design::Worked& worked, base::Unit unit) {
    Table parts({{"Part"}, {"Number", Align::right}, {"Takes", Align::right}, {"Material"}, {""}});
    for (const WorkedPart& part : worked.parts)
        parts.row({part.name, std::to_string(part.number), takes_text(part, unit),
                   choice_text(worked, part), joins_text(part, unit)});
    Table fillers({{"From what is left"},
                   {"Number", Align::right},
                   {"Takes", Align::right},
                   {"Material"},
                   {"Worth", Align::right}});
    for (const WorkedPart& part : worked.fillers)
        fillers.row({part.name, "up to " + std::to_string(part.number), takes_text(part, unit),
                     choice_text(worked, part), base::to_decimal(part.worth.value_or(0), 2)});
    return parts.text() + (fillers.empty() ? std::string() : "\n" + fillers.text());
}

/// What may hurt, told by how the parts take their materials: cutting, glueing, wire.
std::vector<std::string> hazards_of(const design::Worked& worked) {
    const auto takes = [&](std::initializer_list<Take> any) {
        return std::any_of(worked.parts.begin(), worked.parts.end(), [&](const WorkedPart& part) {
            return std::find(any.begin(), any.end(), part.take) != any.end();
        });
    };
    std::vector<std::string> hazards;
    if (takes({Take::piece, Take::length, Take::loops}))
        hazards.emplace_back(base::name_of(base::Hazard::blade));
    if (takes({Take::loops})) hazards.emplace_back(base::name_of(base::Hazard::wire_ends));
    return hazards;
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
    std::string text = worked.name + "\n\n" + numbers_text(worked, unit) + parts_text(worked, unit);
    text += fmt::format("\nWork: {} for each journal", minutes_text(worked.minutes_per_journal));
    if (worked.minutes_per_batch > base::Rational(0))
        text += fmt::format(", and {} for each batch", minutes_text(worked.minutes_per_batch));
    text += ".\n";
    if (const std::string warnings = warnings_text(worked); !warnings.empty())
        text += "\n" + warnings;
    return text + "\n" + cautions(hazards_of(worked));
}

} // namespace barrow::print
