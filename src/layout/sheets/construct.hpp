#pragma once

#include "layout/effort/meter.hpp"
#include "layout/tree/solution.hpp"

namespace barrow::layout {

/// Fills sheet after sheet, each time with the kind of sheet that holds the most area for its cost,
/// and repeats each filling as long as demand and copies last. The best of 15 runs: five orders of
/// the items, three measures of fit. Only the first run is always made: the others end when one
/// costs no more than the area of the items, or after an eighth of the effort.
Solution construct(const Instance& instance, Meter& meter);

} // namespace barrow::layout
