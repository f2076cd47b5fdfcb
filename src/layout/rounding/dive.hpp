#pragma once

#include "layout/columns/pattern_lp.hpp"
#include "layout/effort/meter.hpp"
#include "layout/effort/random.hpp"
#include "layout/tree/solution.hpp"

#include <optional>
#include <vector>

namespace barrow::layout {

/// Looks for a whole answer in the pattern LP: patterns used at least once are fixed, else the most
/// used one, and the LP of the rest is solved again with new columns, until everything is placed or
/// even the LP costs too much. Then one, two, ... earlier choices on a path are reversed (diving
/// with limited discrepancy: Sadykov et al., INFORMS J. on Computing 31 (2019) 251-267). When few
/// pieces are left, ruin and recreate may finish; for lengths from one kind of bar, bin completion.
/// Alternatively every choice is random, weighted by use: where many LP answers are equally good,
/// paths that differ from the first choice get further.
class Dive {
public:
    struct Effort {
        std::int64_t steps = 0;      ///< of all paths together
        std::int64_t ruin_steps = 0; ///< of each ruin and recreate; 0: none
        std::int64_t few_pieces = 0; ///< most pieces left for it
        bool ruin_again = false;     ///< again whenever a quarter of those is placed
        std::int64_t bar_steps = 0;  ///< of each completion of bars (Completion); 0: none
        std::int64_t few_on_bars = 0;
        int discrepancies = 0;
        /// Seed of random choices, repeated until the steps are spent; ruin and recreate is then
        /// tried after each. 0: choices by use, with discrepancies.
        std::uint64_t seed = 0;
    };

    Dive(const Instance& instance, PatternLp& lp, Meter& meter)
        : instance_(instance), lp_(lp), meter_(meter) {}

    /// A complete answer that costs at most `limit`, if found.
    std::optional<Solution> run(Cost limit, const Effort& effort);

private:
    struct Fixed {
        std::size_t column = 0;
        std::int64_t copies = 0;
    };
    struct Mark {
        std::size_t fixed = 0;
        std::vector<std::int64_t> left;
        std::vector<std::int64_t> copies;
        Cost cost = 0;
    };

    void begin();
    bool descend(int discrepancies);
    std::vector<std::size_t> fix_whole();
    double wanted_share(std::size_t column) const;
    std::size_t most_used() const;
    std::size_t used_at_random();
    bool fix(std::size_t column, std::int64_t copies);
    Instance rest() const;
    bool finish_by_ruin();
    bool finish_bars();
    std::int64_t pieces_left() const;
    Mark mark() const { return {fixed_.size(), left_, copies_, cost_}; }
    void back_to(const Mark& mark);
    bool over() const { return meter_.over() || meter_.steps() >= end_; }
    Solution solution() const;

    const Instance& instance_;
    PatternLp& lp_;
    Meter& meter_;
    Effort effort_;
    Random random_{1};
    Cost limit_ = 0;
    std::int64_t end_ = 0;
    std::vector<std::int64_t> left_;
    std::vector<std::int64_t> copies_; ///< of each sheet
    Cost cost_ = 0;
    std::vector<Fixed> fixed_;
    std::int64_t ruin_below_ = 0; ///< tried when at most this many pieces are left
    bool bars_tried_ = false;     ///< on this path
    Solution rest_;               ///< the last pieces, placed by either
};

} // namespace barrow::layout
