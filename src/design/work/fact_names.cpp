#include "design/work/desk.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace barrow::design {
namespace {

/// What the shop knows: of several papers the one that counts; the first of them of which the fact
/// is not known, when there is one.
struct Known {
    std::optional<Quantity> value;
    std::string lacking;
};

Known known_fact(const Desk& desk, const WorkedSlot& slot, const FactKind& kind) {
    Known known;
    for (const std::string& code : candidates(desk, slot)) {
        const MaterialFacts* facts = desk.facts.of(code);
        const auto value = facts == nullptr ? std::nullopt : kind.of(*facts);
        if (!value) {
            if (known.lacking.empty()) known.lacking = code;
            continue;
        }
        const bool more = known.value && value->number > known.value->number;
        if (!known.value || more == (kind.among == FactKind::Among::most)) known.value = value;
    }
    if (!known.lacking.empty()) known.value.reset();
    return known;
}

bool fits(const FactKind& kind, const Quantity& value) {
    if (value.dimension == kind.dimension) return true;
    return kind.name == "spread" && value.dimension == a_spread_by_mass;
}

std::optional<Quantity> stated_fact(Desk& desk, const SlotSpec& spec, const FactKind& kind) {
    const auto stated = spec.stated.find(std::string(kind.name));
    if (stated == spec.stated.end()) {
        for (const SlotSpec& other : desk.design.slots)
            if (other.name == spec.reverse_of) return stated_fact(desk, other, kind);
        return std::nullopt;
    }
    const Quantity value = desk.names.value(stated->second);
    if (!fits(kind, value))
        Desk::refuse(stated->second, value,
                     fmt::format("{}, such as {}", describe(kind.dimension), kind.example));
    return value;
}

NotToBeHad missing(const SlotSpec& spec, const WorkedSlot& slot, const FactKind& kind,
                   const std::string& lacking, const std::string& where) {
    const std::string what =
        !lacking.empty() ? fmt::format("{} has no {}", lacking, kind.name)
                         : fmt::format("nothing is known of the papers of {}", slot.collection);
    std::string how = fmt::format("{}. In the design: {} = {{ ..., {} = \"{}\" }}", kind.about,
                                  spec.name, kind.name, kind.example);
    if (!lacking.empty() && !kind.in_shop.empty())
        how += fmt::format("; in the shop: barrow material change {} {}", lacking, kind.in_shop);
    return NotToBeHad(
        {where, fmt::format("{}.{} is not known: {}", spec.name, kind.name, what), how});
}

/// The fact as the shop knows it, else as the design states it. Throws NotToBeHad.
Quantity fact_of(Desk& desk, const SlotSpec& spec, const FactKind& kind, const std::string& where) {
    const WorkedSlot* slot = worked_slot(desk, spec.name);
    if (slot == nullptr) throw base::bad_input(where, fmt::format("{} is not settled", spec.name));
    const Known known = known_fact(desk, *slot, kind);
    if (known.value) return *known.value;
    if (const auto stated = stated_fact(desk, spec, kind)) return *stated;
    throw missing(spec, *slot, kind, known.lacking, where);
}

/// What the design takes a material to be and what the shop knows it to be should agree.
void compare(Desk& desk, const SlotSpec& spec, const FactKind& kind) {
    const WorkedSlot* slot = worked_slot(desk, spec.name);
    const auto stated = stated_fact(desk, spec, kind);
    if (slot == nullptr || !stated) return;
    desk.explain("material", fmt::format("{}.{}", spec.name, kind.name),
                 spec.stated.at(std::string(kind.name)));
    const Known known = known_fact(desk, *slot, kind);
    if (!known.value || *known.value == *stated) return;
    desk.worked.explanations.back() = {fmt::format("{}.{}", spec.name, kind.name),
                                       "as the shop has it",
                                       {},
                                       to_text(*known.value),
                                       "material"};
    desk.warn(fmt::format(
        "{0}: the design states a {1} of {2}, but the shop's is {3}. {0}.{1} is {3}; what "
        "follows from the design's own number keeps {2}",
        spec.name, kind.name, to_text(*stated), to_text(*known.value)));
}

} // namespace

void name_facts(Desk& desk) {
    for (const SlotSpec& spec : desk.design.slots)
        for (const FactKind& kind : fact_kinds())
            desk.names.define(fmt::format("{}.{}", spec.name, kind.name),
                              [&desk, &spec, &kind](const std::string& where) {
                                  return fact_of(desk, spec, kind, where);
                              });
}

void explain_facts(Desk& desk) {
    for (const SlotSpec& spec : desk.design.slots)
        for (const auto& [name, formula] : spec.stated)
            if (const FactKind* kind = find_fact(name))
                desk.attempt(formula.place(), [&] { compare(desk, spec, *kind); });
}

} // namespace barrow::design
