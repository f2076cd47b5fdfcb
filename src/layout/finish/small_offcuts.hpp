#pragma once

#include "layout/search/meter.hpp"
#include "layout/tree/block.hpp"

#include <vector>

namespace barrow::layout {

/// Moves blocks that lie on offcuts to other offcuts that hold them as they are, so that the
/// offcuts together cost least; among equal costs, that those used have the least area; then that
/// they are oldest (the sum of ages); then that they stand first in the stock list. The best
/// there is for these blocks (the assignment problem: Kuhn, Naval Research Logistics Quarterly 2
/// (1955) 83-97), where many offcuts are used for one group of them after another. Blocks on
/// fresh sheets stay. Answers what is saved: 0, but where the search left money on the shelf.
Cost prefer_small_offcuts(const Instance& instance, std::vector<Pattern>& patterns, Meter& meter);

} // namespace barrow::layout
