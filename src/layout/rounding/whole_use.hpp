#pragma once

#include "layout/columns/pattern_lp.hpp"
#include "layout/effort/meter.hpp"
#include "layout/tree/solution.hpp"

#include <optional>
#include <vector>

namespace barrow::layout {

/// Checks, in whole numbers, that these uses of the columns cut the whole demand within the copies
/// of each sheet. `uses` is parallel to lp.columns(); missing ones are 0. Solver answers are always
/// checked by it.
bool covers(const Instance& instance, const PatternLp& lp, const std::vector<std::int64_t>& uses);

/// The answer with these uses; may cut more than is wanted (see take_out_surplus).
Solution answer_of_uses(const Instance& instance, const PatternLp& lp,
                        const std::vector<std::int64_t>& uses);

/// Searches for whole uses of the LP's present patterns at least cost, without new ones: the column
/// closest below a whole number is rounded up and the LP solved again, until all are whole; then
/// the same with one, two, ... of them rounded down (limited discrepancy search: Harvey & Ginsberg,
/// IJCAI 1995, 607-613). Where sheets are many and of many kinds, the LP's own patterns contain
/// answers hardly dearer than the LP.
class WholeUse {
public:
    WholeUse(const Instance& instance, PatternLp& lp, Meter& meter)
        : instance_(instance), lp_(lp), meter_(meter) {}

    /// The best answer found that costs at most `limit`; ends once one costs at most `enough`,
    /// after so many steps, or when all paths are tried. The LP's limits are those of the whole
    /// demand before and after.
    std::optional<Solution> run(Cost limit, Cost enough, std::int64_t steps);

private:
    bool affordable();
    std::size_t nearest() const;
    void keep();
    void descend(int discrepancies);
    bool over() const { return done_ || meter_.over() || meter_.steps() >= end_; }

    const Instance& instance_;
    PatternLp& lp_;
    Meter& meter_;
    Cost limit_ = 0;
    Cost enough_ = 0;
    std::int64_t end_ = 0;
    bool done_ = false;
    std::vector<PatternLp::Uses> limits_; ///< of each column
    std::vector<std::int64_t> best_;      ///< uses of each column; empty: nothing found
};

} // namespace barrow::layout
