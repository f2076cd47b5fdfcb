#include "print/making/designs.hpp"

#include "base/hazard.hpp"
#include "base/text.hpp"
#include "print/making/cautions.hpp"
#include "print/making/design_numbers.hpp"
#include "print/text/words.hpp"
#include "print/write/terminal.hpp"

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
        return fmt::format("may be joined anywhere, in pieces of at least {}",
                           base::show(part.joining.least_piece, unit));
    std::string at;
    for (const Length join : part.joining.at)
        at += (at.empty() ? "" : ", ") + base::show(join, unit, true);
    return at.empty() ? at : "may be joined at " + at;
}

void add_parts(Blocks& blocks, const design::Worked& worked, base::Unit unit) {
    Table parts({{"Part"},
                 {"Number", Kind::count},
                 {"Takes", Kind::quantity},
                 {"Material"},
                 {"", Kind::text, false, "Joins"}});
    for (const WorkedPart& part : worked.parts)
        parts.row({part.name, count(part.number), takes_text(part, unit), choice_text(worked, part),
                   joins_text(part, unit)});
    blocks.add(parts);
    Table fillers({{"From what is left"},
                   {"Number", Kind::count},
                   {"Takes", Kind::quantity},
                   {"Material"},
                   {"Worth", Kind::money}});
    for (const WorkedPart& part : worked.fillers)
        fillers.row({part.name, "up to " + std::to_string(part.number), takes_text(part, unit),
                     choice_text(worked, part),
                     Cell(base::to_decimal(part.worth.value_or(0), 2), Kind::money)});
    blocks.add(fillers);
}

/// What may hurt, as far as it shows in how the parts take their materials: blades and wire.
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

Blocks blocks(const std::vector<store::StoredDesign>& designs) {
    Blocks blocks("Designs");
    if (designs.empty()) {
        blocks.add(Text{"No designs yet. Bring one in with: barrow design bring FILE"});
        return blocks;
    }
    Table table({{"Code", Kind::label},
                 {"Design"},
                 {"Text", Kind::count},
                 {"Brought in", Kind::date},
                 {"From"}});
    for (const store::StoredDesign& design : designs)
        table.row({link(Link::To::design, design.code), design.name, count(design.number),
                   date(design.brought_on), design.file});
    blocks.add(table);
    return blocks;
}

std::string screen(const std::vector<store::StoredDesign>& designs) {
    return terminal(blocks(designs));
}

Blocks blocks(const design::Worked& worked, base::Unit unit) {
    Blocks blocks(worked.name);
    blocks.add(Heading{worked.name});
    add_numbers(blocks, worked, unit);
    add_parts(blocks, worked, unit);
    std::string work =
        fmt::format("Work: {} for each journal", minutes_text(worked.minutes_per_journal));
    if (worked.minutes_per_batch > base::Rational(0))
        work += fmt::format(", and {} for each batch", minutes_text(worked.minutes_per_batch));
    blocks.add(Text{work + "."});
    add_warnings(blocks, worked);
    blocks.add(cautions(hazards_of(worked)));
    return blocks;
}

std::string screen(const design::Worked& worked, base::Unit unit) {
    return terminal(blocks(worked, unit));
}

Blocks calculation_blocks(const design::Worked& worked, base::Unit unit) {
    Blocks blocks(worked.name);
    blocks.add(Heading{worked.name});
    add_numbers(blocks, worked, unit);
    add_warnings(blocks, worked);
    return blocks;
}

std::string calculation_screen(const design::Worked& worked, base::Unit unit) {
    return terminal(calculation_blocks(worked, unit));
}

} // namespace barrow::print
