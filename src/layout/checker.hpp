#pragma once

#include "layout/plan.hpp"

#include <string>
#include <vector>

namespace barrow::layout {

/// Checks an outcome against its job, sharing no code with the search. For each plan: the stock
/// exists and is not over-used; pieces have a size and turn the job allows, lie inside the margins
/// and do not overlap; replaying the cuts in order, each runs from edge to edge of one part, and
/// the parts left are exactly the pieces, the offcuts and waste; offcuts are of useful size and
/// every useful part is listed; the areas of pieces, offcuts, waste, kerf and margins add up to the
/// sheet exactly. For the whole: demand is met exactly (least_cost), limits are kept (most_value),
/// cost, value and sheets add up, bound and status agree with them. Returns the faults in words;
/// empty when there are none.
std::vector<std::string> check(const Job& job, const Outcome& outcome);

} // namespace barrow::layout
