#pragma once

#include "layout/effort/meter.hpp"
#include "layout/model/instance.hpp"
#include "layout/tree/solution.hpp"

#include <cstddef>
#include <vector>

namespace barrow::layout {

/// The question whether limited sheets hold everything, as a search for the least cost: only the
/// items that fit no unlimited sheet, on the limited sheets that hold them, with more copies of
/// those added. Sheets of one kind simply become unlimited; of several kinds, copies beyond the
/// limits cost more than all others together. Either way the sheets suffice exactly when the
/// least cost is at most goal().
class Scarce {
public:
    /// The instance must outlive it.
    explicit Scarce(const Instance& instance);

    const Instance& instance() const { return scarce_; }
    Cost goal() const { return goal_; }

    /// A solution of the whole instance from one of instance() that costs at most goal(); not
    /// complete only if a plan for the other items, which fit unlimited sheets, is not.
    Solution whole(const Solution& scarce, Meter& meter) const;

private:
    const Instance& given_;
    Instance scarce_;
    Cost goal_ = 0;
    std::vector<std::int32_t> items_; ///< of the instance, for each kind of item here
    std::vector<std::size_t> sheets_; ///< of the instance, for each kind of sheet here
};

} // namespace barrow::layout
