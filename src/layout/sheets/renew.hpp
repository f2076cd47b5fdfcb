#pragma once

#include "layout/effort/meter.hpp"
#include "layout/tree/solution.hpp"

namespace barrow::layout {

/// Improves a complete answer a few sheets at a time: their content is cut again by ruin and
/// recreate from any unused sheets, if that costs less. For several kinds of sheet, where small
/// savings add up. Ends after so many steps, or when the cost reaches the goal.
void renew(const Instance& instance, Cost bound, std::int64_t steps, Meter& meter,
           Solution& solution);

} // namespace barrow::layout
