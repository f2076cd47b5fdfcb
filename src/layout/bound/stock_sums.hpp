#pragma once

#include "base/wide.hpp"
#include "layout/model/instance.hpp"

#include <vector>

namespace barrow::layout {

/// What whole numbers of sheets can cost together, and the most area such money buys: a bounded
/// knapsack over all costs up to one. Says more than an area bound where sheets are few or of few
/// copies, since no plan costs anything in between.
class StockSums {
public:
    /// Costs up to `most`, in multiples of `step`, which must divide the costs of all sheets.
    /// Without knowledge (and every answer the weakest) when that would take too many steps.
    StockSums(const Instance& instance, Cost most, Cost step);

    /// The most area that sheets for at most so much have.
    base::Wide most_area(Cost budget) const;

    /// The least sum, `from` or more, for which sheets of so much area can be had; `from` itself
    /// when nothing is known.
    Cost least_cost(base::Wide area, Cost from) const;

    std::int64_t steps() const { return steps_; }

private:
    Cost step_;
    std::vector<base::Wide> exact_;   ///< most area for exactly so many steps of cost, -1: none
    std::vector<base::Wide> at_most_; ///< for at most so many
    std::int64_t steps_ = 0;
};

/// Area of all that is wanted.
base::Wide area_wanted(const Instance& instance);

} // namespace barrow::layout
