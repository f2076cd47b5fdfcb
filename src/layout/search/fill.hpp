#pragma once

#include "layout/tree/block.hpp"

#include <optional>

namespace barrow::layout {

/// A choice of items for the one sheet of a most_value instance, and a bound on the best value.
struct Filling {
    std::optional<Block> block; ///< nothing when no item has a place
    Cost value = 0;
    Cost bound = 0;
};

/// Fills the sheet with the most valued items for their area, by several measures of fit.
Filling fill_greedily(const Instance& instance);

} // namespace barrow::layout
