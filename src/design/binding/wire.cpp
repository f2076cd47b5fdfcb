#include "design/binding/binding.hpp"

// Double-loop wire through a row of holes. Sources:
//  - pitch: 3:1 is three loops an inch, 2:1 two (memim.com, "Wire binding").
//  - diameter: thickness of the block + 1/8 in, below 5/8 in at 3:1, else at 2:1
//    (articlesfactory.com, article on double-loop wire; a printer's technical page gives 1 1/4 in
//    wire for books up to 1 1/8 in). A trade bindery asks for 3/16 in: room = "3/16in".
//  - holes: 4 mm at 3:1, up to 6 mm at 2:1 (memim.com); their middle 1/4 in from the edge for wire
//    of 1/4 to 9/16 in, 3/8 in above (US trade bindery, requirements page).
//  - loops: see loops() in formula.hpp; 8 mm clear at each end gives the published counts.
//  - a hole's middle at least a hole's width from the end, so that half a hole of paper stands
//    beyond the hole: common practice, no source.

namespace barrow::design {

const BindingKind& wire_binding() {
    using Is = BindingKey::Is;
    static const BindingKind kind{
        "wire",
        "double-loop wire through a row of holes",
        {
            {Is::slot, "material", "", "the wire", true},
            {Is::formula, "edge", "", "the edge the loops run along", true},
            {Is::formula, "clear", "8 mm",
             "from each end of the edge to the nearest hole, at least"},
            {Is::formula, "pitch", "$material.pitch", "from one loop to the next"},
            {Is::formula, "diameter", "$material.diameter", "of the wire, across", false, true},
            {Is::formula, "thickness", "block.thickness", "what the wire must hold", false, true},
            {Is::formula, "room", "1/8in", "the wire is wider than what it holds by this"},
            {Is::formula, "hole", "if(binding.pitch < 10 mm, 4 mm, 6 mm)", "width of a hole"},
            {Is::formula, "setback", "if(binding.diameter < 5/8in, 1/4in, 3/8in)",
             "from the edge to the middle of a hole", false, true},
        },
        {
            {"loops", "loops(binding.edge, binding.pitch, max(binding.clear, binding.hole))",
             "loops of wire, and holes"},
            {"span", "(binding.loops - 1) * binding.pitch", "from the first hole to the last"},
            {"first", "(binding.edge - binding.span) / 2",
             "from the end of the edge to the first hole"},
            {"needed", "binding.thickness + binding.room", "diameter that holds the block", true},
            {"size",
             "size_for(binding.needed, 3/16in, 1/4in, 5/16in, 3/8in, 7/16in, 1/2in, 9/16in, 5/8in, "
             "3/4in, 7/8in, 1in, 1 1/4in)",
             "the smallest wire made that is as wide", true},
            {"usual_pitch", "if(binding.size < 5/8in, 1in / 3, 1in / 2)",
             "the pitch wire of that size usually has", true},
        },
        {{"hole", "loops", "first", "pitch", "edge", "setback", "hole"}},
        {{"binding wire", "material", "", "", "binding.loops"}},
        {
            {"binding.diameter >= binding.needed",
             "the wire is {binding.diameter} across, but the block is {binding.thickness} thick "
             "and "
             "wants {binding.needed}: take wire of {binding.size}, or put less in",
             false, Severity::stops},
            {"binding.setback >= binding.hole",
             "the holes, {binding.hole} wide and {binding.setback} in from the edge, leave less "
             "than half a hole of paper outside them"},
            {"cover.$panel >= binding.diameter",
             "the panel $panel is {cover.$panel} wide, but the wire it holds is {binding.diameter} "
             "across: the cover will not lie round it",
             true, Severity::stops},
        },
        {
            "Punch {binding.loops} holes, {binding.pitch} from one to the next, the first "
            "{binding.first} from the end of the edge.",
        }};
    return kind;
}

} // namespace barrow::design
