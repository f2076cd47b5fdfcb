#pragma once

#include "layout/bound/pattern_lp.hpp"
#include "layout/search/construct.hpp"
#include "layout/search/meter.hpp"

#include <optional>
#include <vector>

namespace barrow::layout {

/// Whether all that is wanted is cut, and no sheet used more often than there is, when each column
/// is used so often; uses stand beside lp.columns(), those beyond them are 0. In whole numbers: no
/// solver's word is taken for it.
bool covers(const Instance& instance, const PatternLp& lp, const std::vector<std::int64_t>& uses);

/// The answer with these uses, as it is: more may be cut than is wanted (see take_out_surplus).
Solution answer_of_uses(const Instance& instance, const PatternLp& lp,
                        const std::vector<std::int64_t>& uses);

/// The cheapest way to use the patterns the LP knows a whole number of times each, no new ones
/// made: the column that lacks least to a whole number is rounded up and the LP solved again, until
/// all are whole; then the same with one, two, ... of them rounded down (limited discrepancy
/// search: Harvey & Ginsberg, IJCAI 1995, 607-613). Where sheets are many and of many kinds, the
/// LP's own patterns hold answers hardly dearer than the LP.
class WholeUse {
public:
    WholeUse(const Instance& instance, PatternLp& lp, Meter& meter)
        : instance_(instance), lp_(lp), meter_(meter) {}

    /// The best answer found that costs at most `limit`; ends as soon as one costs no more than
    /// `enough`, after so many steps, or when there is no other. The LP's limits are those of the
    /// whole demand before and after.
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
