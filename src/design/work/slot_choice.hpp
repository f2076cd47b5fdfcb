#pragma once

#include "design/work/work_out.hpp"

#include <string>
#include <vector>

namespace barrow::design {

/// What a part or slot may be taken from: one of these materials, or any of a collection.
struct SlotChoice {
    std::vector<std::string> codes;
    std::string collection; ///< empty when there are codes
};

/// The slot of that name whose paper decides: one that shows the reverse of another's paper goes
/// with that one. Nothing when the design has no such slot.
const WorkedSlot* deciding_slot(const Worked& design, const std::string& name);

/// What fills a slot that decides for itself. A pinned material leaves nothing else.
SlotChoice choice_of(const WorkedSlot& slot);

/// What a part may be taken from: its own material, else what its deciding slot says. Neither code
/// nor collection when it has no slot.
SlotChoice choice_of(const Worked& design, const WorkedPart& part);

} // namespace barrow::design
