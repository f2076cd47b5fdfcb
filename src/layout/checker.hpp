#pragma once

#include "layout/plan.hpp"

#include <string>
#include <vector>

namespace barrow::layout {

/// Independent proof that an outcome keeps its promises; shares no code with the search. Verifies
/// for each plan: the stock exists and is not over-used; pieces have a size and turn the job
/// allows, lie inside the margins and do not overlap; replaying the cuts in order, each runs from
/// edge to edge of one part, and the parts left are exactly the pieces, the offcuts and waste;
/// offcuts are of useful size and every useful part is listed; areas of pieces, offcuts, waste,
/// kerf and margins add up to the sheet exactly. For the whole: demand met exactly (least_cost),
/// limits kept (most_value), cost, value and sheets add up, bound and status agree with them.
/// Returns what is wrong, in words; empty when all is well.
std::vector<std::string> check(const Job& job, const Outcome& outcome);

} // namespace barrow::layout
