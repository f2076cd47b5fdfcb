#include "design/work/desk.hpp"

#include "design/binding/binding.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace barrow::design {
namespace {

using base::Rational;

void work_amount(Desk& desk, const PartSpec& spec, WorkedPart& part) {
    const Quantity value = desk.names.value(spec.amount);
    if (value.dimension != a_volume && value.dimension != a_mass)
        Desk::refuse(spec.amount, value, "a volume (ml) or a mass (g)");
    if (value.number < Rational(0)) Desk::refuse(spec.amount, value, "an amount above zero");
    part.amount_is_mass = value.dimension == a_mass;
    part.amount = part.amount_is_mass ? value.number : value.number / Rational(mm3_per_ml);
}

/// Explains the formulas of a part that say more than a plain value.
void explain_part(Desk& desk, const PartSpec& spec, const std::string& group) {
    const auto one = [&](const char* what, const Formula& formula) {
        if (!formula.empty() && !names_in(formula).empty())
            desk.explain(group, fmt::format("{}: {}", spec.name, what), formula);
    };
    one("number", spec.number);
    one("width", spec.width);
    one("height", spec.height);
    one("length", spec.length);
    one("loops", spec.loops);
    one("amount", spec.amount);
}

void work_size(Desk& desk, const PartSpec& spec, WorkedPart& part) {
    switch (spec.take) {
    case Take::piece: {
        bool sound = false;
        desk.attempt(spec.place, [&] {
            part.width = desk.length_of(spec.width);
            sound = true;
        });
        part.height = desk.length_of(spec.height);
        if (!sound) return; // told already
        settle_joins(desk, spec, part);
        settle_sheet(desk, spec, part);
        break;
    }
    case Take::length: part.length = desk.length_of(spec.length); break;
    case Take::loops: part.loops = desk.count_of(spec.loops); break;
    case Take::spread: work_amount(desk, spec, part); break;
    case Take::count: break;
    }
}

/// Parts of the binding for slots the design lists no part of itself.
std::vector<PartSpec> binding_parts(Desk& desk) {
    std::vector<PartSpec> specs;
    if (!desk.design.binding) return specs;
    const BindingSpec& binding = *desk.design.binding;
    for (const BindingPart& part : binding.kind->parts) {
        const auto slot = binding.slots.find(std::string(part.slot_key));
        if (slot == binding.slots.end()) continue;
        const bool listed =
            std::any_of(desk.design.parts.begin(), desk.design.parts.end(),
                        [&](const PartSpec& other) { return other.slot == slot->second; });
        if (listed) continue;
        PartSpec spec;
        spec.name = part.name;
        spec.slot = slot->second;
        spec.place = binding.place;
        const auto formula = [&](std::string_view text) {
            return text.empty() ? Formula{} : desk.own_formula(std::string(text), binding.place);
        };
        spec.number = formula(part.number);
        spec.length = formula(part.length);
        spec.loops = formula(part.loops);
        spec.take = !part.length.empty()  ? Take::length
                    : !part.loops.empty() ? Take::loops
                                          : Take::count;
        specs.push_back(std::move(spec));
    }
    return specs;
}

} // namespace

std::optional<WorkedPart> work_part(Desk& desk, const PartSpec& spec, const std::string& group) {
    WorkedPart part;
    part.name = spec.name;
    part.slot = spec.slot;
    part.take = spec.take;
    part.turn = spec.turn;
    part.grain = spec.grain;
    part.worth = spec.worth;
    part.about = spec.about;
    if (const WorkedSlot* slot = worked_slot(desk, spec.slot)) part.material = slot->material;
    bool sound = false;
    desk.attempt(spec.place, [&] {
        part.number = spec.number.empty() ? 1 : desk.count_of(spec.number);
        sound = true;
    });
    if (part.number == 0) return std::nullopt;
    work_size(desk, spec, part);
    if (!sound || (spec.take == Take::loops && part.loops == 0)) return std::nullopt;
    explain_part(desk, spec, group);
    return part;
}

void work_parts(Desk& desk) {
    const auto add = [&](const PartSpec& spec, std::vector<WorkedPart>& list,
                         const std::string& group) {
        desk.attempt(spec.place, [&] {
            if (auto part = work_part(desk, spec, group)) list.push_back(std::move(*part));
        });
    };
    for (const PartSpec& spec : desk.design.parts) add(spec, desk.worked.parts, "part");
    for (const PartSpec& spec : binding_parts(desk)) add(spec, desk.worked.parts, "part");
    for (const PartSpec& spec : desk.design.fillers) add(spec, desk.worked.fillers, "filler");
}

} // namespace barrow::design
