#pragma once

#include "costing/bill/arrangement.hpp"
#include "costing/shelf/shelf.hpp"
#include "layout/job.hpp"

#include <vector>

namespace barrow::costing {

/// Decides over whole runs what the designs leave open: which paper of its collection each slot
/// has in each journal, and where each panel is joined. What counts, in this order:
///  1. nothing is bought of papers that compete with each other when shelf and offcuts will do;
///  2. the cost of the sheets, as plan_cuts weighs them, save that one that must be bought counts
///     double;
///  3. the fewest joins.
/// Rules kept: a slot has one paper in a journal (or in the run, or a paper for each piece, as it
/// says); slots that must differ do, in every journal; a slot that shows the reverse of another's
/// paper has that paper, which must be patterned on both faces where that is known; a slot that the
/// maker pinned, or that names one material, has it; joins only where the part allows them.
///
/// How: for every paper, what it costs to give so many journals of each slot to it is found through
/// the layout engine (and remembered); a dynamic program over the papers then deals the journals
/// out. Small cases are weighed completely (Arrangement::all_weighed); larger ones begin from a
/// program over all papers and choices together (guided_deal), and journals are moved about between
/// papers while that helps.
///
/// Throws base::Error: Kind::bad_input for a material code the shop does not have (with the
/// nearest), a collection without papers, or a form that does not fit the part; Kind::refused for a
/// piece larger than every sheet with no fold to join at, for slots that cannot all differ, and
/// where no paper can be laid out.
Arrangement arrange(const std::vector<Run>& runs, const std::vector<ShelfMaterial>& shelf,
                    layout::Effort effort);

} // namespace barrow::costing
