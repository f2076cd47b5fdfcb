#pragma once

#include "layout/job.hpp"

#include <cstddef>
#include <cstdint>

namespace barrow::layout {

/// Limits of each stage, in steps (see Meter) unless they count something else. Found by trial on
/// the published instances.
struct Budget {
    /// With at most this many pieces ruin and recreate alone may reach the bound.
    static constexpr std::int64_t few_pieces = 200;

    std::int64_t first_ruin = 0;
    std::int64_t first_bars = 0; ///< lengths: bin completion, before the LP
    std::int64_t some_bars = 0;  ///< lengths: tight cover, right after the LP
    std::int64_t bars = 0;       ///< lengths: tight cover, after the dives
    std::int64_t pattern_lp = 0;
    std::int64_t dive = 0;
    std::int64_t dive_ruin = 0; ///< each ruin and recreate within a dive
    std::int64_t near_dive = 0; ///< a dive to 1 % above the bound, with offcuts
    int dives = 0;
    int rounds = 1;          ///< rounds of whole uses and dives
    std::int64_t corner = 0; ///< each corner relaxation
    int rest_gatherings = 0; ///< rounds of gathering on what the LP rounded down leaves; 0: none
    int rest_rounds =
        0; ///< rounds of whole uses and dives where the remainders improved the answer
    std::int64_t whole_use = 0; ///< whole uses of the patterns the LP knows
    std::int64_t gathering = 0; ///< each round of gathering, several kinds of sheet
    int gatherings = 0;
    std::int64_t single_ruin = 0; ///< first ruin and recreate, one kind of sheet and unlike pieces
    std::int64_t single_gathering = 0; ///< each round of gathering for those
    int single_gatherings = 0;
    std::int64_t proper_lp = 0;      ///< LP over proper patterns, after each such round
    std::int64_t dive_at_random = 0; ///< dives with random choices in that LP
    int rounds_at_random = 0;        ///< rounds with such dives
    int nodes = 0;                   ///< branch and cut over the patterns gathered
    std::int64_t renewal = 0;        ///< cutting a few sheets again
    std::int64_t second_ruin = 0;    ///< last ruin and recreate, from each start
    std::uint64_t beginnings = 1;
    std::int64_t most_pieces = 0;   ///< with more, no ruin and recreate
    std::size_t most_points = 0;    ///< raster points along one axis
    std::int32_t coarse_points = 0; ///< measures are rounded to this many where there are more
    std::int64_t set_steps = 0;     ///< listing all sets of items that fit a sheet
    std::size_t most_sets = 0;
    std::int64_t settle_steps = 0;  ///< listing the sets that waste little
    std::int64_t cover_steps = 0;   ///< covering the demand with those
    std::size_t most_states = 0;    ///< states of that cover
    std::int64_t tight = 0;         ///< blocks that lose next to nothing, where every sheet counts
    std::size_t most_blocks = 0;    ///< of those
    std::int64_t few_set_steps = 0; ///< exact answer where few sets fit
};

Budget budget_of(Effort effort);

/// Most work a search for least cost may spend (see Meter), in all its stages together. A unit
/// takes a millionth of a second or somewhat more: quick 0.2 s, normal 5 s, thorough 60 s.
std::int64_t work_limit(Effort effort);

} // namespace barrow::layout
