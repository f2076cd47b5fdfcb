#pragma once

#include "layout/search/meter.hpp"
#include "layout/tree/block.hpp"

#include <optional>

namespace barrow::layout {

/// A choice of items for the one sheet of a most_value instance, and a bound on the best value.
struct Filling {
    std::optional<Block> block; ///< nothing when no item has a place
    Cost value = 0;
    Cost bound = 0;
};

/// Chooses items for the sheet. From cheap to dear, stopping as soon as value and bound meet: all
/// sets of items where they are few; the best filling with unlimited copies; prices that make the
/// best filling keep to the copies allowed; taking parts out and filling up again; strips cut off
/// the sheet, where tables are large; and labels on what the prices leave open.
Filling fill(const Instance& instance, Effort effort, Meter& meter);

/// The most work fill may take at an effort.
std::int64_t fill_work_limit(Effort effort);

} // namespace barrow::layout
