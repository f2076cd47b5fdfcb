#include "design/work/slot_choice.hpp"

#include <algorithm>

namespace barrow::design {

const WorkedSlot* deciding_slot(const Worked& design, const std::string& name) {
    const auto slot = std::find_if(design.slots.begin(), design.slots.end(),
                                   [&](const WorkedSlot& s) { return s.name == name; });
    if (slot == design.slots.end()) return nullptr;
    return slot->reverse_of.empty() ? &*slot : deciding_slot(design, slot->reverse_of);
}

SlotChoice choice_of(const WorkedSlot& slot) {
    if (!slot.material.empty()) return {{slot.material}, {}};
    if (!slot.any_of.empty()) return {slot.any_of, {}};
    return {{}, slot.collection};
}

SlotChoice choice_of(const Worked& design, const WorkedPart& part) {
    if (!part.material.empty()) return {{part.material}, {}};
    const WorkedSlot* slot = deciding_slot(design, part.slot);
    return slot == nullptr ? SlotChoice{} : choice_of(*slot);
}

} // namespace barrow::design
