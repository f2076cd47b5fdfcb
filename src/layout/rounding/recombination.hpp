#pragma once

#include "layout/sheets/pattern_pool.hpp"

#include <cstdint>
#include <optional>

namespace barrow::layout {

/// Limits of a recombination.
struct Recombining {
    std::int64_t steps = 0;        ///< for the linear program over the pool
    int nodes = 0;                 ///< of branch and cut, at most
    std::int64_t proper_steps = 0; ///< for proper patterns beyond the pool; 0: none
    std::int64_t dive_steps = 0;   ///< for dives among both
    std::uint64_t seed = 1;        ///< of those
};

struct Recombined {
    std::optional<Solution> solution;
    Cost bound = 0;        ///< proven, where proper patterns were searched
    bool all_known = true; ///< no other proper pattern would improve the linear program
};

/// An answer that costs at most `limit` made of patterns of the pool: solves the linear program
/// over them, selects for each kind of item the patterns with the least reduced cost, and runs
/// branch and cut on those. Patterns that no answer of that cost can contain, by the linear
/// program, leave the pool; so does the worse half of a full one. (Set covering over patterns seen:
/// Monaci & Toth, INFORMS J. on Computing 18 (2006) 71-85.) Where pieces are few and unlike, the
/// program may also generate proper patterns (ProperPricing) until it has them all: a better bound
/// than with unlimited copies, and dives with random choices succeed more often.
Recombined recombine(const Instance& instance, PatternPool& pool, Cost limit,
                     const Recombining& effort, Meter& meter);

} // namespace barrow::layout
