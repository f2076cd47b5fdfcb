#include "workshop/making/new_design.hpp"

#include "base/error.hpp"
#include "design/file/design_file.hpp"
#include "workshop/shared/settings.hpp"
#include "workshop/stock/catalogue.hpp"
#include "workshop/stock/material_facts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace barrow::workshop {
namespace {

using base::Form;
using design::Take;

Form form_of(Take take) {
    switch (take) {
    case Take::piece: return Form::sheet;
    case Take::length: return Form::length;
    case Take::loops: return Form::wire;
    case Take::count: return Form::count;
    case Take::spread: return Form::bulk;
    }
    throw base::broken("a part that takes nothing");
}

std::string need_of(const design::WorkedPart& part, base::Unit unit) {
    const auto times = [&](const std::string& one) {
        return part.number == 1 ? one : fmt::format("{} x {}", part.number, one);
    };
    switch (part.take) {
    case Take::piece:
        return times(base::show(part.width, unit) + " x " + base::show(part.height, unit))
               + (part.joining.allowed() ? " (may be joined)" : "");
    case Take::length: return times(base::show(part.length, unit));
    case Take::loops: return fmt::format("{} loops", part.loops * part.number);
    case Take::count: return fmt::format("{}", part.number);
    case Take::spread:
        return fmt::format("{} {}", base::to_decimal(part.amount * base::Rational(part.number), 1),
                           part.amount_is_mass ? "g" : "ml");
    }
    throw base::broken("a part that takes nothing");
}

/// Materials of that form with which the design can be worked out: pieces must fit their sheets.
std::vector<store::Material> fitting(const std::vector<store::Material>& materials, Form form,
                                     const design::Design& design, const design::Facts& facts,
                                     const NewDesign& wanted, const std::string& slot) {
    std::vector<store::Material> found;
    for (const store::Material& material : materials) {
        if (material.form != form) continue;
        design::Changes changes{wanted.usual, wanted.materials};
        changes.materials[slot] = material.code;
        try {
            design::work_out(design, changes, facts);
            found.push_back(material);
        } catch (const base::Error& error) {
            if (error.kind() != base::Kind::refused) throw;
        }
    }
    std::sort(found.begin(), found.end(),
              [](const auto& a, const auto& b) { return a.code < b.code; });
    return found;
}

const design::ReadyDesign& base_called(const std::string& name) {
    const design::ReadyDesign* base = design::find_ready(design::ready_bases(), name);
    if (base == nullptr) throw base::broken("no base of that name");
    return *base;
}

} // namespace

std::string text_of(const NewDesign& wanted) {
    return design::own_design(base_called(wanted.base), wanted.code, wanted.name, wanted.usual,
                              wanted.materials);
}

std::vector<OpenSlot> open_slots(store::Database& database, const NewDesign& wanted) {
    return reading(database, [&] {
        for (const auto& [slot, code] : wanted.materials)
            material_called(database, code, fmt::format("--use {}={}", slot, code));
        const design::Design design = design::read_design(text_of(wanted), wanted.code + ".toml");
        const design::Facts facts = facts_of(database);
        const auto materials = store::all_materials(database);
        const base::Unit unit = read_settings(database).unit;
        // Worked out as the base is, with what the placeholders are taken to be.
        const design::Worked worked = design::work_out(design);
        std::vector<OpenSlot> open;
        for (const design::SlotSpec& slot : design.slots) {
            if (wanted.materials.count(slot.name) > 0) continue;
            OpenSlot one{slot.name, slot.about, {}, {}};
            std::optional<Form> form;
            for (const auto* list : {&worked.parts, &worked.fillers})
                for (const design::WorkedPart& part : *list) {
                    if (part.slot != slot.name) continue;
                    form = form_of(part.take);
                    if (list == &worked.parts)
                        one.need += (one.need.empty() ? "" : ", ") + need_of(part, unit);
                }
            if (!form) continue; // nothing of it is used with these numbers
            one.fitting = fitting(materials, *form, design, facts, wanted, slot.name);
            open.push_back(std::move(one));
        }
        return open;
    });
}

std::vector<std::string> bases_explained(const design::Worked& worked) {
    std::vector<std::string> lines;
    if (!worked.cover) return lines;
    for (const design::WorkedPanel& panel : worked.cover->panels) {
        if (panel.role != design::Role::base) continue;
        for (const design::Explanation& one : worked.explanations)
            if (one.name == panel.name + "_wide")
                lines.push_back(fmt::format("{} {} = {} = {}", panel.name, one.value, one.formula,
                                            one.spelled));
    }
    return lines;
}

} // namespace barrow::workshop
