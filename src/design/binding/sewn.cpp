#include "design/binding/binding.hpp"

// Sections sewn through the fold. The thread runs along the fold once for each section, in at one
// station and out at the next, and steps over to the next section at the end; one section alone
// is sewn there and back, since both ends come home to be knotted. An odd number of stations lets
// a single section begin and end in the middle. Common practice, no source: an odd number of
// stations about 5 cm apart, the outermost 15 mm from head and tail, 2 cm for each step to the
// next section with its kettle stitch, 30 cm to knot with and to hold.

namespace barrow::design {

const BindingKind& sewn_binding() {
    using Is = BindingKey::Is;
    static const BindingKind kind{
        "sewn",
        "sections sewn through the fold",
        {
            {Is::slot, "material", "", "the thread", true},
            {Is::formula, "height", "", "of a page, along the fold", true},
            {Is::formula, "sections", "1", "sections in a journal", false, false, true},
            {Is::formula, "clear", "15 mm", "from head and tail to the outermost station"},
            {Is::formula, "stations", "2 * round_up(binding.span / 10 cm, 1) + 1",
             "holes along the fold", false, false, true},
            {Is::formula, "link", "2 cm", "thread from one section to the next"},
            {Is::formula, "tie", "30 cm", "thread to knot with and to hold"},
            {Is::formula, "thickness", "block.thickness", "of all sections together", false, true},
        },
        {
            {"span", "binding.height - 2 * binding.clear", "from the first station to the last"},
            {"step", "binding.span / (binding.stations - 1)", "from one station to the next"},
            {"passes", "if(binding.sections > 1, 1, 2)", "times the thread runs along each fold"},
            {"length",
             "binding.sections * binding.passes * binding.span + (binding.sections - 1) * "
             "binding.link + binding.tie",
             "thread for one journal"},
        },
        {{"station", "stations", "clear", "step", "height", "", "", "sections"}},
        {{"thread", "material", "1", "binding.length", ""}},
        {
            {"binding.step >= 1 cm",
             "the stations are only {binding.step} apart: the fold will tear; take fewer"},
            {"binding.clear >= 5 mm", "the outermost stations are only {binding.clear} from head "
                                      "and tail: they will tear out"},
            {"cover.$panel >= binding.thickness",
             "the panel $panel is {cover.$panel} wide, but the sections sewn to it are "
             "{binding.thickness} thick",
             true},
        },
        {
            "Pierce {binding.stations} stations through the fold of each section, "
            "{binding.step} apart, the first {binding.clear} from the head.",
            "Cut {binding.length} of thread; more than an arm's length is sewn with a knot.",
        }};
    return kind;
}

} // namespace barrow::design
