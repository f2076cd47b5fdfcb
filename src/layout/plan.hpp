#pragma once

#include "layout/job.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace barrow::layout {

/// A rectangle on a sheet; (0, 0) is the lower left corner of the whole sheet, margins included.
struct Rectangle {
    Measure x = 0;
    Measure y = 0;
    Measure width = 0;
    Measure height = 0;
    friend bool operator==(const Rectangle&, const Rectangle&) = default;
};

/// Where one piece lies. `place` has the size as it lies: swapped when `turned` (by 90 degrees).
struct Placed {
    std::size_t piece = 0; ///< index into Job::pieces
    Rectangle place;
    bool turned = false;
};

/// One edge-to-edge cut across the part of the sheet it stands in. Axis x: at a fixed x, running
/// from y = from to y = to. The kerf is lost from `at` onward.
struct Cut {
    enum class Axis { x, y } axis = Axis::x;
    Measure at = 0;
    Measure from = 0;
    Measure to = 0;
    /// Measure to set on the trimmer: from the edge of the part that lies against the stop.
    Measure stop = 0;
    bool beyond_trimmer = false; ///< longer than Job::trimmer
};

/// One way to cut a sheet, used for `copies` sheets of Job::stock[stock]. The cuts divide what is
/// left inside the margins, in the order to be made.
struct Plan {
    std::size_t stock = 0;
    std::int64_t copies = 1;
    std::vector<Placed> pieces;
    std::vector<Cut> cuts;
    std::vector<Rectangle> offcuts; ///< remnants at or above Job::useful, largest first
};

enum class Status {
    optimal,    ///< cost equals a proven bound
    feasible,   ///< all placed; better may exist
    not_found,  ///< no plan for everything was found, nor proven impossible: see `unplaced`
    infeasible, ///< proven: not everything can be placed; see `unplaced`
};

struct Unplaced {
    std::size_t piece = 0;
    std::int64_t count = 0;
    bool fits_no_stock = false; ///< larger than every stock entry, in every allowed position
};

struct Outcome {
    Status status = Status::not_found;
    Cost cost = 0;              ///< of the sheets used (least_cost)
    Cost bound = 0;             ///< proven: least cost is not below it / most value not above it
    Cost value = 0;             ///< of the pieces placed (most_value)
    std::int64_t sheets = 0;    ///< copies of all plans
    std::int64_t work = 0;      ///< effort spent, the same on every machine
    bool stopped_early = false; ///< the caller's `progress` asked to stop
    std::vector<Plan> plans;
    std::vector<Unplaced>
        unplaced; ///< only when not_found or infeasible; `plans` then hold what could be placed
};

} // namespace barrow::layout
