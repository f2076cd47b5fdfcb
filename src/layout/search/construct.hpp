#pragma once

#include "layout/tree/block.hpp"

#include <vector>

namespace barrow::layout {

/// An answer under construction: patterns, and how many of each kind of item found no place.
struct Solution {
    std::vector<Pattern> patterns;
    std::vector<std::int64_t> unplaced;
    Cost cost = 0;

    bool complete() const;
    std::int64_t unplaced_area(const Instance& instance) const;
};

/// Less left over first, then less cost.
bool better(const Instance& instance, const Solution& left, const Solution& right);

/// Fills sheet after sheet, each with the kind of sheet and the order of items that give the most
/// area for the cost, and repeats each filling as long as demand and copies last. The best over
/// several orders and measures of fit.
Solution construct(const Instance& instance);

} // namespace barrow::layout
