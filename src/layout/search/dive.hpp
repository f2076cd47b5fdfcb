#pragma once

#include "layout/bound/pattern_lp.hpp"
#include "layout/search/construct.hpp"
#include "layout/search/meter.hpp"
#include "layout/search/random.hpp"

#include <optional>
#include <vector>

namespace barrow::layout {

/// Looks for a whole answer in the pattern LP: patterns used at least once are fixed, then the one
/// used most, and the LP of what is left is solved anew with fresh columns, until all is placed or
/// even the LP costs too much. Then a few earlier choices are taken back, one, two, ... on a way
/// (diving with limited discrepancy: Sadykov et al., INFORMS J. on Computing 31 (2019) 251-267).
/// When few pieces are left, ruin and recreate may finish the work; with lengths from one kind of
/// bar, bin completion. Or each way chooses anew at random, patterns used more the sooner: where
/// many answers of the LP are as good, ways that differ from their first choice come further.
class Dive {
public:
    struct Effort {
        std::int64_t steps = 0;      ///< of all ways together
        std::int64_t ruin_steps = 0; ///< of each ruin and recreate; 0: none
        std::int64_t few_pieces = 0; ///< that it is tried on
        bool ruin_again = false;     ///< each time a quarter of those is placed
        std::int64_t bar_steps = 0;  ///< likewise, of each completion of bars (Completion)
        std::int64_t few_on_bars = 0;
        int discrepancies = 0;
        /// Choices at random until the steps are spent, begun with this; ruin and recreate is then
        /// tried after each. 0: by use, with discrepancies.
        std::uint64_t seed = 0;
    };

    Dive(const Instance& instance, PatternLp& lp, Meter& meter)
        : instance_(instance), lp_(lp), meter_(meter) {}

    /// A complete answer that costs at most `limit`.
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
    std::int64_t ruin_below_ = 0; ///< it is tried when no more pieces than this are left
    bool bars_tried_ = false;     ///< on this way
    Solution rest_;               ///< what either made of the last pieces
};

/// Takes pieces out of patterns where more than wanted were cut; the sheets stay as they are, but
/// those left empty go.
void take_out_surplus(const Instance& instance, Solution& solution);

} // namespace barrow::layout
