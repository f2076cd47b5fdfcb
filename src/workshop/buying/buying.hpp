#pragma once

#include "store/buying/orders.hpp"
#include "supply/reorder.hpp"
#include "workshop/making/cost.hpp"

#include <string>
#include <vector>

namespace barrow::workshop {

/// What to buy so that the wanted journals can be there on the wanted day.
struct Reorder {
    Settings settings;
    base::Date wanted_by;
    /// Beside the runs asked for: how many were wanted, and how many of those are finished and free
    /// to sell (no seconds, none listed for another fair to come), or planned and in work.
    struct Run {
        std::string design;
        std::string name;
        std::int64_t wanted = 0;
        std::int64_t finished = 0;
        std::int64_t in_work = 0;
        std::int64_t to_make() const { return wanted - finished - in_work; }
    };
    std::vector<Run> runs;
    std::vector<supply::SupplierOrder> orders;
    /// Something on order that may not be there in time: expected after the wanted day (then it is
    /// not counted, and needed), or expected before today and still to come (then it is counted).
    struct Doubt {
        std::string material; ///< code
        std::string name;
        base::Form form = base::Form::count;
        bool bulk_is_mass = false;
        store::OnOrder waiting;
        bool counted = false;
    };
    std::vector<Doubt> doubts;
};

/// Finished journals count first, then those in the making; the rest is laid out together over what
/// of shelf and offcuts no planned batch has reserved, and what is then short, or falls below its
/// reorder level, and is not on order, is gathered by supplier in whole packs. With no runs: only
/// reorder levels. Writes nothing.
Reorder reorder(store::Database& database, const std::vector<WantedRun>& wanted,
                const base::Date& wanted_by, const base::Date& today);

} // namespace barrow::workshop
