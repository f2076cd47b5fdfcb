#pragma once

#include "supply/reorder.hpp"
#include "workshop/cost.hpp"

#include <string>
#include <vector>

namespace barrow::workshop {

/// What to buy so that the wanted journals can be there on the wanted day.
struct Reorder {
    Settings settings;
    base::Date wanted_by;
    /// Beside the runs asked for: how many were wanted, and how many of those are finished already.
    struct Run {
        std::string design;
        std::string name;
        std::int64_t wanted = 0;
        std::int64_t finished = 0;
    };
    std::vector<Run> runs;
    std::vector<supply::SupplierOrder> orders;
};

/// Finished journals count first; the rest is laid out together over shelf and offcuts, and what
/// is then short, or falls below its reorder level, is gathered by supplier in whole packs. With
/// no runs: only reorder levels. Writes nothing.
Reorder reorder(store::Database& database, const std::vector<WantedRun>& wanted,
                const base::Date& wanted_by, const base::Date& today);

} // namespace barrow::workshop
