#pragma once

#include "layout/effort/meter.hpp"
#include "layout/tree/block.hpp"

#include <vector>

namespace barrow::layout {

/// What decides between offcuts otherwise equal: their place in the instance, so that a search does
/// not depend on the order of the job's entries, or their place in the job's stock list.
enum class Ties { by_kind, as_listed };

/// Moves blocks on offcuts to other offcuts that hold them, so that the offcuts cost least in
/// total; among equal costs, least area; then greatest total age; then first by `ties`.
/// Optimal for these blocks (the assignment problem: Kuhn, Naval Research Logistics Quarterly 2
/// (1955) 83-97); where many offcuts are used, one group of them after another. Blocks on fresh
/// sheets stay. Returns the cost saved, which is more than 0 only where the search overlooked a
/// cheaper offcut.
Cost prefer_small_offcuts(const Instance& instance, std::vector<Pattern>& patterns, Ties ties,
                          Meter& meter);

} // namespace barrow::layout
