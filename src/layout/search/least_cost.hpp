#pragma once

#include "layout/search/construct.hpp"
#include "layout/search/meter.hpp"

namespace barrow::layout {

/// An answer to a least_cost instance and a bound that no answer can be below.
struct Answer {
    Solution solution;
    Cost bound = 0; ///< means nothing when the solution is not complete
};

/// From cheap to dear, stopping as soon as cost and bound meet: construction, the area bound,
/// a short ruin and recreate, the pattern LP, and a long ruin and recreate.
Answer least_cost(const Instance& instance, Effort effort, Meter& meter);

/// Units of work that no search for least cost goes beyond (see Meter).
std::int64_t work_limit(Effort effort);

} // namespace barrow::layout
