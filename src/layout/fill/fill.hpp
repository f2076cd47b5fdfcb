#pragma once

#include "layout/effort/meter.hpp"
#include "layout/tree/block.hpp"

#include <optional>

namespace barrow::layout {

/// A choice of items for the one sheet of a most_value instance, and a bound on the best value.
struct Filling {
    std::optional<Block> block; ///< empty when no item fits
    Cost value = 0;
    Cost bound = 0;
};

/// Limits of each stage, in steps unless they count something else. Found by trial on the published
/// instances.
struct FillBudget {
    std::int64_t few_sets = 0;
    std::int64_t many_sets = 0;
    std::int64_t prices = 0;
    std::int64_t search = 0;      ///< without improvement, from each start
    std::uint64_t beginnings = 0; ///< more starts, where nothing is proven
    std::int64_t labels = 0;      ///< before sets are tried
    std::int64_t strips = 0;      ///< where tables are slow
    std::size_t most_cells = 0;   ///< of tables: 8 bytes each
};

FillBudget fill_budget(Effort effort);
/// Small budget for repeated pricing calls.
FillBudget one_price_of_many();

/// Chooses items for the sheet. Cheap stages first, until value and bound meet: all sets of items
/// where they are few; the best filling with unlimited copies; prices that make the best filling
/// keep to the copies allowed; removing parts and filling again; strips cut off the sheet, where
/// tables are large; and labels on what the prices leave open.
Filling fill(const Instance& instance, const FillBudget& budget, Meter& meter);

/// Most work fill may spend at an effort.
std::int64_t fill_work_limit(Effort effort);

} // namespace barrow::layout
