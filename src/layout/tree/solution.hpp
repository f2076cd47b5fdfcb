#pragma once

#include "layout/tree/block.hpp"

#include <cstdint>
#include <vector>

namespace barrow::layout {

/// Patterns, and how many of each kind of item are not placed.
struct Solution {
    std::vector<Pattern> patterns;
    std::vector<std::int64_t> unplaced;
    Cost cost = 0;

    bool complete() const;
    std::int64_t unplaced_area(const Instance& instance) const;
};

/// Less unplaced area first, then less cost.
bool better(const Instance& instance, const Solution& left, const Solution& right);

/// Removes pieces cut beyond the demand. Sheets left empty go, the others stay.
void take_out_surplus(const Instance& instance, Solution& solution);

} // namespace barrow::layout
