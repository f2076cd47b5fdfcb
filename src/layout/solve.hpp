#pragma once

#include "layout/plan.hpp"

#include <functional>

namespace barrow::layout {

/// How far a search has come, for the faces to show.
struct Progress {
    std::int64_t work = 0;
    std::int64_t work_limit = 0;
    Cost cost = 0;  ///< best found so far; value for most_value
    Cost bound = 0; ///< best proven so far
};

struct Options {
    Effort effort = Effort::normal;
    /// Ends the search after so much work, below what the effort allows; 0: as the effort says. For
    /// callers that ask of many small jobs what they would roughly cost.
    std::int64_t most_work = 0;
    /// Called now and then; answering false ends the search with the best plan found so far
    /// (Outcome::stopped_early). Not called with nothing.
    std::function<bool(const Progress&)> progress = {};
};

/// Lays the job out. Same job and effort, same answer, byte for byte: no clock, no threads, no
/// random numbers but from a generator of fixed definition and seed.
///
/// Aims of least_cost:
///  1. least stock cost, over all sheets;
///  2. of the offcuts used, the least area together, then the greatest age together, then those
///     that come first in the stock list: the best there is for the cut trees found (which offcut
///     carries which; cut trees are not searched anew for it);
///  3. of each sheet as filled, the most useful remnants (area above Job::useful, weighted to
///     large rectangles);
///  4. fewest cuts and fewest changes of measure on the trimmer, likewise.
/// Demand is met exactly. Requires examine(job) to be empty; throws base::Error otherwise.
Outcome solve(const Job& job, const Options& options = {});

} // namespace barrow::layout
