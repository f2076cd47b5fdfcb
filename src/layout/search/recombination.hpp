#pragma once

#include "layout/search/pattern_pool.hpp"

#include <cstdint>
#include <optional>

namespace barrow::layout {

/// How hard to look for whole answers.
struct Recombining {
    std::int64_t steps = 0;        ///< for the linear program over what was seen
    int nodes = 0;                 ///< of branch and cut, at most
    std::int64_t proper_steps = 0; ///< for proper patterns that nobody saw; 0: none
    std::int64_t dive_steps = 0;   ///< for dives among both
    std::uint64_t seed = 1;        ///< of those
};

struct Recombined {
    std::optional<Solution> solution;
    Cost bound = 0;        ///< proven, where proper patterns were sought
    bool all_known = true; ///< no other proper pattern would better the linear program
};

/// An answer for at most `limit` made up of patterns of the pool: the linear program over them; of
/// all patterns those few of each kind of item that cost least beyond what they save; whole uses
/// of those by branch and cut. What an answer for so much cannot hold, as far as the linear program
/// knows, leaves the pool; so does the worse half of a full one. (Set covering over patterns seen:
/// Monaci & Toth, INFORMS J. on Computing 18 (2006) 71-85.) Where pieces are few and unlike, the
/// program may also ask for proper patterns (ProperPricing) until it knows them all: a better bound
/// than unlimited copies give, and dives that choose among patterns at random end well more often.
Recombined recombine(const Instance& instance, PatternPool& pool, Cost limit,
                     const Recombining& effort, Meter& meter);

} // namespace barrow::layout
