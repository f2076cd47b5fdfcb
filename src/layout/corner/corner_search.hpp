#pragma once

#include "layout/columns/pattern_lp.hpp"
#include "layout/effort/meter.hpp"
#include "layout/sets/set_shapes.hpp"
#include "layout/table/raster.hpp"
#include "layout/tree/solution.hpp"

#include <cstdint>
#include <optional>

namespace barrow::layout {

/// Where all patterns can be listed from: all sets that fit a sheet, or a table over this grid that
/// priced the LP. Neither: unknown.
struct PatternSource {
    const SetShapes* shapes = nullptr;
    const Grid* grid = nullptr;
};

/// Result of the corner relaxation.
struct Cornered {
    std::optional<Solution> solution;
    Cost bound = 0; ///< proven
};

/// Searches for an answer that costs at most `limit`, and a bound, by the corner relaxation of the
/// LP's last basis. They need not meet, but mostly do where demands are high and the kinds few.
/// Empty where the LP would save by more copies of a sheet, or where its basis has a large
/// determinant. With a table, all patterns that an answer can contain are listed (NearBest), for
/// costs ever further above the bound.
Cornered corner_search(const Instance& instance, const PatternSource& source, const PatternLp& lp,
                       Cost limit, std::int64_t steps, Meter& meter);

} // namespace barrow::layout
