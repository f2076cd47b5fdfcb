#pragma once

#include "layout/tree/solution.hpp"

#include <cstdint>
#include <utility>
#include <vector>

namespace barrow::layout {

/// Content of one bar: kinds of item, and how many of each.
using BarContent = std::vector<std::pair<std::size_t, std::int64_t>>;

/// All kinds of item, longest first.
std::vector<std::size_t> longest_first(const Instance& instance);

/// The solution with these bars of the first kind of sheet. They must hold exactly the demand.
Solution answer_of_bars(const Instance& instance, const std::vector<BarContent>& bars);

} // namespace barrow::layout
