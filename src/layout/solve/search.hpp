#pragma once

#include "layout/bound/stock_sums.hpp"
#include "layout/columns/pattern_lp.hpp"
#include "layout/corner/corner_search.hpp"
#include "layout/effort/budget.hpp"
#include "layout/effort/meter.hpp"
#include "layout/model/instance.hpp"
#include "layout/rounding/dive.hpp"
#include "layout/sets/set_shapes.hpp"
#include "layout/sheets/pattern_pool.hpp"
#include "layout/tree/solution.hpp"

#include <algorithm>
#include <cstddef>
#include <memory>
#include <string>
#include <vector>

namespace barrow::layout {

/// An answer to a least_cost instance and a bound that no answer can be below.
struct Answer {
    Solution solution;
    Cost bound = 0;          ///< means nothing when the solution is not complete
    bool impossible = false; ///< proven: no solution is complete
};

/// The pattern LP of a search and what its pricing stands on.
struct PatternSearch {
    std::unique_ptr<Instance> rounded_up; ///< where the rasters of the instance are too fine
    std::unique_ptr<SetShapes> shapes;
    std::unique_ptr<Grid> grid;
    std::unique_ptr<Pricing> pricing;
    std::unique_ptr<Pricing> helper;
    std::unique_ptr<PatternLp> lp;
    PatternSource source; ///< of all patterns, for the corner relaxation
    bool proves = true;   ///< false: patterns of the instance rounded up
};

/// The state of one search for least cost, and everything a stage may do. Which stages run, in
/// which order and when, stands in least_cost.cpp.
class Search {
public:
    Search(const Instance& instance, const Budget& budget, Meter& meter,
           const std::vector<std::string>& without, std::size_t depth, Cost goal = no_goal)
        : instance_(instance), meter_(meter), budget_(budget), without_(without), depth_(depth),
          goal_(goal), sums_(instance, 0, 1) {}

    /// The goal of a search for the least cost. With any other goal the search ends at the first
    /// answer that costs no more, or when none can.
    static constexpr Cost no_goal = INT64_MAX;

    const Answer& answer() const { return answer_; }

    /// Facts that decide which stages run.
    bool complete() const { return answer_.solution.complete(); }
    /// An answer that the search is still for is possible, and effort is left.
    bool open() const {
        const bool reached = goal_ != no_goal && answer_.solution.cost <= goal_;
        return !reached && answer_.bound <= limit() && !meter_.over();
    }
    bool settled() const { return settled_; } ///< nothing more can be found
    bool lengths() const { return instance_.one_dimensional(); }
    bool one_sheet() const { return instance_.sheets.size() == 1; }
    bool bars_alike() const { return lengths() && one_sheet(); }
    bool has_offcuts() const { return instance_.has_offcuts(); }
    bool few() const { return instance_.pieces_wanted() <= Budget::few_pieces; }
    bool gathers() const;
    bool unlike() const;
    bool enough() const;
    bool tight() const;
    bool near() const;
    bool part() const { return depth_ > 0; } ///< this search is for what an LP left over
    bool has_lp() const { return patterns_ != nullptr; }
    /// The LP is exact and has several kinds of sheet.
    bool several() const { return has_lp() && patterns_->proves && !one_sheet(); }

    /// What the stages do; each keeps a better answer and a higher bound.
    void build();
    void sum_stock();
    void try_all_sets();
    void complete_answer();
    void prove_by_scales();
    void prove_by_need();
    void complete_bars();
    void ruin_first();
    void solve_lp();
    void search_corner();
    void solve_rests();
    void dive_bars();
    void cover_bars();
    void dive_near();
    void use_whole();
    void dive();
    void join_tightly();
    void gather();
    void gather_unlike();
    void cover_all_sets();
    void renew_sheets();
    void ruin_on();

    /// Begins the next round of dives and whole uses, which find patterns for each other: false
    /// when the last one found none, or there is no other.
    bool next_round();
    void drop_lp() { patterns_.reset(); }

private:
    /// What an answer may cost so that it is of use.
    Cost limit() const { return std::min(answer_.solution.cost - 1, goal_); }
    /// The search itself, with every stage, for all of another instance at no more than the goal.
    Answer search_for(const Instance& instance, std::size_t depth, Cost goal);
    bool small() const { return instance_.pieces_wanted() <= budget_.most_pieces; }
    void take(Solution solution);
    void prove(Cost bound);
    std::int64_t worth_while(std::int64_t steps) const;
    /// No stage may take more than half of what effort is left: others come after it.
    std::int64_t share(std::int64_t steps) const { return std::min(steps, meter_.left() / 2); }
    void ruin(std::int64_t steps, std::uint64_t seed);
    void cover_bars(std::int64_t steps);
    void solve_coarse_lp();
    void bound_coarsely(const Instance& smaller, const Grid& grid);
    void generate(std::unique_ptr<PatternSearch> patterns);
    void solve_rest(double less);
    void gather(int rounds, int most_idle, std::int64_t steps);
    void gather_once(PatternPool& pool, int round, std::int64_t steps);
    void dive(int most);
    template <class Aim>
    void dive_between(const Dive::Effort& effort, int most, const Aim& aim);

    const Instance& instance_;
    Meter& meter_;
    Budget budget_;
    const std::vector<std::string>& without_;
    std::size_t depth_ = 0; ///< above 0: for what an LP left over
    Cost goal_ = no_goal;
    bool settled_ = false;
    bool proper_in_time_ = true; ///< all proper patterns that matter were known within the budget
    StockSums sums_;             ///< up to the cost of the first answer
    Answer answer_;
    std::unique_ptr<PatternSearch> patterns_;
    Cost cost_of_lp_ = 0; ///< best known when the LP was solved
    int rounds_ = 0;
    int round_ = -1;
    std::size_t patterns_before_ = 0; ///< known when the round began
};

} // namespace barrow::layout
