#pragma once

#include "layout/search/construct.hpp"
#include "layout/search/meter.hpp"

namespace barrow::layout {

/// Betters a complete answer a few sheets at a time: what lies on them is cut anew by ruin and
/// recreate from any sheets that are free, if that costs less. For several kinds of sheet, where
/// small savings add up. Ends after so many steps, or when the bound is reached.
void renew(const Instance& instance, Cost bound, std::int64_t steps, Meter& meter,
           Solution& solution);

} // namespace barrow::layout
