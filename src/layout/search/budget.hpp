#pragma once

#include "layout/model/instance.hpp"
#include "layout/search/dive.hpp"

#include <cstddef>
#include <cstdint>

namespace barrow::layout {

/// Steps given to each part; found by trial on the published instances.
struct Budget {
    /// So few pieces that ruin and recreate alone may come to the bound.
    static constexpr std::int64_t few_pieces = 200;

    std::int64_t first_ruin = 0;
    std::int64_t first_bars = 0; ///< for lengths, before the LP
    std::int64_t some_bars = 0;  ///< after it, before the dives
    std::int64_t bars = 0;       ///< and after those
    std::int64_t pattern_lp = 0;
    std::int64_t dive = 0;
    std::int64_t dive_ruin = 0; ///< within a dive, each time
    std::int64_t near_dive = 0; ///< with offcuts, to a hundredth above the bound
    int dives = 0;
    int rounds = 1;             ///< of whole uses and dives
    std::int64_t corner = 0;    ///< each time (Corner)
    int rest_gatherings = 0;    ///< for what the LP rounded down leaves over; 0: not sought
    int rest_rounds = 0;        ///< of whole uses and dives where that helped
    std::int64_t whole_use = 0; ///< of the LP's own patterns
    std::int64_t gathering = 0; ///< of patterns, each time (several kinds of sheet)
    int gatherings = 0;
    std::int64_t single_ruin = 0;      ///< the first, for one kind of sheet and unlike pieces
    std::int64_t single_gathering = 0; ///< each time, for such
    int single_gatherings = 0;
    std::int64_t proper_lp = 0;      ///< of proper patterns, after each of these
    std::int64_t dive_at_random = 0; ///< in it, each time
    int rounds_at_random = 0;        ///< that have such dives
    int nodes = 0;                   ///< of branch and cut over the patterns gathered
    std::int64_t renewal = 0;        ///< for several kinds of sheet
    std::int64_t second_ruin = 0;    ///< from each of its beginnings
    std::uint64_t beginnings = 1;
    std::int64_t most_pieces = 0; ///< that ruin and recreate is tried on
    std::size_t most_points = 0;  ///< of a raster, one axis
    Length coarse_points = 0;     ///< where there are more, to this many
    std::int64_t set_steps = 0;   ///< for all sets of items that can be cut
    std::size_t most_sets = 0;
    std::int64_t settle_steps = 0;  ///< for those of them that waste little
    std::int64_t cover_steps = 0;   ///< for looking through what wastes little
    std::size_t most_states = 0;    ///< of that
    std::int64_t few_set_steps = 0; ///< for an exact answer where few can be cut
};

Budget budget_of(Effort effort);

Dive::Effort effort_of_dives(const Budget& budget, const Instance& instance);
/// With offcuts, to a hundredth above the bound.
Dive::Effort effort_near(std::int64_t steps);

} // namespace barrow::layout
