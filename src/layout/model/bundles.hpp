#pragma once

#include <algorithm>
#include <cstdint>

namespace barrow::layout {

/// Calls `visit` with 1, 2, 4, ... copies and a remainder, `most` in total: their sums make every
/// number up to `most` (bounded knapsacks: Martello & Toth, Knapsack Problems, 1990, 3.1).
template <typename Visit>
void each_bundle(std::int64_t most, Visit visit) {
    std::int64_t left = most;
    for (std::int64_t bundle = 1; left > 0; bundle *= 2) {
        const std::int64_t copies = std::min(bundle, left);
        left -= copies;
        visit(copies);
    }
}

} // namespace barrow::layout
