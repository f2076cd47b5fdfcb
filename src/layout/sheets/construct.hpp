#pragma once

#include "layout/tree/solution.hpp"

namespace barrow::layout {

/// Fills sheet after sheet, each time with the kind of sheet that holds the most area for its cost,
/// and repeats each filling as long as demand and copies last. The best of 15 runs: five orders of
/// the items, three measures of fit.
Solution construct(const Instance& instance);

} // namespace barrow::layout
