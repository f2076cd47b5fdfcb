#pragma once

#include "layout/job.hpp"

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

namespace barrow::layout {

/// Progress of a search, for display.
struct Progress {
    std::int64_t work = 0;
    std::int64_t work_limit = 0;
    Cost cost = 0;  ///< best found so far; value for most_value
    Cost bound = 0; ///< best proven so far
};

struct Options {
    Effort effort = Effort::normal;
    /// Most work to spend, if less than the effort allows; 0: no such limit. For callers that
    /// estimate many small jobs.
    std::int64_t most_work = 0;
    /// Names of search stages to leave out, to measure what each is worth (src/layout/README.md).
    std::vector<std::string> without = {};
    /// Called every 10,000 units of work; returning false ends the search with the best plan found
    /// so far (Outcome::stopped_early). May be empty.
    std::function<bool(const Progress&)> progress = {};
};

} // namespace barrow::layout
