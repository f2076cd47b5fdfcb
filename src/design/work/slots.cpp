#include "design/work/desk.hpp"

#include "base/text.hpp"
#include "design/work/slot_choice.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::design {
namespace {

void refuse_unknown_slots(const Desk& desk) {
    std::vector<std::string> known;
    for (const SlotSpec& slot : desk.design.slots) known.push_back(slot.name);
    for (const auto& [name, code] : desk.changes.materials) {
        if (std::find(known.begin(), known.end(), name) != known.end()) continue;
        std::string hint = base::did_you_mean(name, known);
        if (hint.empty()) hint = fmt::format("it has {}", fmt::join(known, ", "));
        throw base::bad_input(
            fmt::format("--use {}={}", name, code),
            fmt::format("the design {} has no material \"{}\"", desk.design.code, name), hint);
    }
}

WorkedSlot settled(const Desk& desk, const SlotSpec& spec) {
    WorkedSlot slot;
    slot.name = spec.name;
    slot.material = spec.code;
    slot.collection = spec.collection;
    slot.any_of = spec.any_of;
    slot.same = spec.same;
    slot.differs_from = spec.differs_from;
    slot.reverse_of = spec.reverse_of;
    slot.offcuts_only = spec.offcuts_only;
    const auto change = desk.changes.materials.find(spec.name);
    if (change == desk.changes.materials.end()) return slot;
    if (!spec.reverse_of.empty())
        throw base::bad_input(
            fmt::format("--use {}={}", spec.name, change->second),
            fmt::format("{} is the reverse of the paper of {}", spec.name, spec.reverse_of),
            fmt::format("choose that one: --use {}=CODE", spec.reverse_of));
    slot.material = change->second;
    slot.pinned = true;
    return slot;
}

/// A paper whose other face is to show must have one.
void check_reverse(Desk& desk, const SlotSpec& spec, const WorkedSlot& slot) {
    if (spec.reverse_of.empty()) return;
    bool may_be = false;
    std::vector<std::string> unknown;
    const std::vector<std::string> codes = candidates(desk, slot);
    for (const std::string& code : codes) {
        const MaterialFacts* facts = desk.facts.of(code);
        if (facts == nullptr || !facts->two_faced)
            unknown.push_back(code);
        else if (*facts->two_faced)
            may_be = true;
    }
    if (codes.empty() || may_be) return;
    if (unknown.empty())
        throw base::bad_input(spec.place.at(),
                              fmt::format("is the reverse of {}, but {} has no second face",
                                          spec.reverse_of, fmt::join(codes, ", ")),
                              "choose a paper that is patterned on both sides");
    desk.say_not_known(NotToBeHad(
        {spec.place.at(), fmt::format("whether {} has a second face", fmt::join(unknown, ", ")),
         fmt::format("say so: barrow material change {} --faces 2", unknown.front())}));
}

} // namespace

std::vector<std::string> candidates(const Desk& desk, const WorkedSlot& slot) {
    const WorkedSlot* decides =
        slot.reverse_of.empty() ? &slot : deciding_slot(desk.worked, slot.reverse_of);
    if (decides == nullptr) return {};
    const SlotChoice choice = choice_of(*decides);
    return choice.codes.empty() ? desk.facts.in_collection(choice.collection) : choice.codes;
}

const WorkedSlot* worked_slot(const Desk& desk, const std::string& name) {
    for (const WorkedSlot& slot : desk.worked.slots)
        if (slot.name == name) return &slot;
    return nullptr;
}

void settle_slots(Desk& desk) {
    desk.attempt({}, [&] { refuse_unknown_slots(desk); });
    for (const SlotSpec& spec : desk.design.slots)
        desk.attempt(spec.place, [&] { desk.worked.slots.push_back(settled(desk, spec)); });
    for (WorkedSlot& slot : desk.worked.slots)
        if (const WorkedSlot* other = worked_slot(desk, slot.reverse_of))
            slot.material = other->material;
    for (std::size_t i = 0; i < desk.design.slots.size(); ++i) {
        const SlotSpec& spec = desk.design.slots[i];
        if (const WorkedSlot* slot = worked_slot(desk, spec.name))
            desk.attempt(spec.place, [&] { check_reverse(desk, spec, *slot); });
    }
}

} // namespace barrow::design
