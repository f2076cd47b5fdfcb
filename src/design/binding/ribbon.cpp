#include "design/binding/binding.hpp"

// Double pages, folded in their middle and laid into one another as sections, each section tied
// in by a ribbon round its fold: once inside, once outside, and the ends to tie. Common practice,
// no source: five double pages to a section, a gap of about an inch between the two envelopes of
// a page, 30 cm for the bow.
//
// The gap is the spine of the page: the outermost page of a section lies round all the others, so
// that its gap must be at least as wide as the section is thick (geometry).

namespace barrow::design {

const BindingKind& ribbon_binding() {
    using Is = BindingKey::Is;
    static const BindingKind kind{
        "ribbon",
        "folded pages in sections, tied in by a ribbon round each fold",
        {
            {Is::slot, "material", "", "the ribbon", true},
            {Is::formula, "height", "", "of a page, along the fold", true},
            {Is::formula, "pages", "5", "folded pages in a section", false, false, true},
            {Is::formula, "sections", "1", "sections in a journal", false, false, true},
            {Is::formula, "gap", "1in", "between the two envelopes of a folded page"},
            {Is::formula, "envelope_wide", "", "width of an envelope on the page"},
            {Is::formula, "rounds", "1", "times the ribbon goes round the fold", false, false,
             true},
            {Is::formula, "tie", "30 cm", "for the bow, both ends together"},
            {Is::formula, "thickness", "block.thickness / binding.sections", "of one section",
             false, true},
        },
        {
            {"page_wide", "2 * binding.envelope_wide + binding.gap",
             "of a folded page, lying open"},
            {"envelopes", "2 * binding.pages * binding.sections", "in the journal"},
            {"length", "2 * binding.rounds * binding.height + binding.tie",
             "ribbon for one section"},
            {"total", "binding.sections * binding.length", "ribbon for the journal"},
        },
        {},
        {{"binding ribbon", "material", "binding.sections", "binding.length", ""}},
        {
            {"binding.gap >= binding.thickness",
             "a section is {binding.thickness} thick, but its pages leave a gap of {binding.gap}: "
             "make the gap wider, put fewer pages in a section, or put less in"},
            {"cover.$panel >= binding.sections * binding.thickness",
             "the panel $panel is {cover.$panel} wide; the sections tied to it are "
             "{binding.thickness} thick each",
             true},
        },
        {
            "Cut {binding.sections} x {binding.length} of ribbon; lay each round the fold of its "
            "section, inside and out, and tie.",
        }};
    return kind;
}

} // namespace barrow::design
