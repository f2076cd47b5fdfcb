#pragma once

#include "base/wide.hpp"
#include "layout/model/instance.hpp"

#include <vector>

namespace barrow::layout {

/// Costs that whole numbers of sheets can add up to, and the greatest area for each: a bounded
/// knapsack. Stronger than an area bound where sheets are few or their copies limited, since no
/// plan costs anything in between.
class StockSums {
public:
    /// Costs up to `most`, in multiples of `step`, which must divide the costs of all sheets. When
    /// that would take too many steps the sums stay unknown and every answer is the weakest
    /// possible.
    StockSums(const Instance& instance, Cost most, Cost step);

    /// The greatest total area of sheets that cost at most this.
    base::Wide most_area(Cost budget) const;

    /// The least sum, at least `from`, that buys this area; `from` when the sums are unknown.
    Cost least_cost(base::Wide area, Cost from) const;

    std::int64_t steps() const { return steps_; }

private:
    Cost step_;
    std::vector<base::Wide> exact_;   ///< greatest area at exactly this cost (in steps), -1: none
    std::vector<base::Wide> at_most_; ///< at no more than this cost
    std::int64_t steps_ = 0;
};

/// Total area of the demand.
base::Wide area_wanted(const Instance& instance);

} // namespace barrow::layout
