#pragma once

#include "layout/bound/pattern_lp.hpp"
#include "layout/search/construct.hpp"
#include "layout/search/meter.hpp"
#include "layout/sets/set_shapes.hpp"
#include "layout/table/raster.hpp"

#include <cstdint>
#include <optional>

namespace barrow::layout {

/// Where all patterns come from: all sets that can be cut, or a table over this grid that priced
/// the LP. Neither: not known.
struct PatternSource {
    const SetShapes* shapes = nullptr;
    const Grid* grid = nullptr;
};

/// What Corner makes of the last answer of a pattern LP.
struct Cornered {
    std::optional<Solution> solution;
    Cost bound = 0; ///< proven
};

/// An answer for at most `limit` and a bound. They need not meet, but mostly do where demands are
/// high and the kinds few. Nothing where the LP says that one more of some sheet would save
/// something, or where its basis has a large determinant. With a table, all patterns are listed
/// that an answer can hold (NearBest), for costs ever further above the bound.
Cornered corner_search(const Instance& instance, const PatternSource& source, const PatternLp& lp,
                       Cost limit, std::int64_t steps, Meter& meter);

} // namespace barrow::layout
