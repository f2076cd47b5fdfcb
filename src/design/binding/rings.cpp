#include "design/binding/binding.hpp"

// Hinged rings through two or more holes, so that pages can be taken out and added. The holes are
// those of ISO 838, so that bought pages fit: two of 6 mm, 80 mm apart, their middles 12 mm from
// the edge, centred on it (fact-archive.com, "ISO 838"). A ring must be wider inside than the
// block is thick; 1/4 in more lets pages turn: common practice, no source.

namespace barrow::design {

const BindingKind& rings_binding() {
    using Is = BindingKey::Is;
    static const BindingKind kind{
        "rings",
        "hinged rings through holes, for pages that come and go",
        {
            {Is::slot, "material", "", "the rings", true},
            {Is::formula, "edge", "", "the edge the holes are along", true},
            {Is::formula, "number", "2", "rings", false, false, true},
            {Is::formula, "spacing", "80 mm", "from one hole to the next"},
            {Is::formula, "setback", "12 mm", "from the edge to the middle of a hole"},
            {Is::formula, "hole", "6 mm", "width of a hole"},
            {Is::formula, "diameter", "$material.diameter", "of a ring, inside", false, true},
            {Is::formula, "thickness", "block.thickness", "what the rings must hold", false, true},
            {Is::formula, "room", "1/4in", "a ring is wider than what it holds by this"},
        },
        {
            {"span", "(binding.number - 1) * binding.spacing", "from the first hole to the last"},
            {"first", "(binding.edge - binding.span) / 2",
             "from the end of the edge to the first hole"},
            {"needed", "binding.thickness + binding.room", "diameter that holds the block", true},
        },
        {{"hole", "number", "first", "spacing", "edge", "setback", "hole"}},
        {{"rings", "material", "binding.number", "", ""}},
        {
            {"binding.first >= binding.hole",
             "{binding.number} holes {binding.spacing} apart do not fit on an edge of "
             "{binding.edge}: the outermost would break its end",
             false, Severity::stops},
            {"binding.diameter >= binding.needed",
             "the rings are {binding.diameter} inside, but the block is {binding.thickness} thick "
             "and wants {binding.needed}: take larger rings, or put less in",
             false, Severity::stops},
            {"cover.$panel >= binding.diameter",
             "the panel $panel is {cover.$panel} wide, but the rings in it are {binding.diameter} "
             "across: the cover will not lie round them",
             true, Severity::stops},
        },
        {
            "Punch {binding.number} holes, {binding.spacing} from one to the next, the first "
            "{binding.first} from the end of the edge.",
        }};
    return kind;
}

} // namespace barrow::design
