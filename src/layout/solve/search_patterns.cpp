#include "layout/columns/bar_pricing.hpp"
#include "layout/columns/strip_pricing.hpp"
#include "layout/model/rounded.hpp"
#include "layout/rounding/residual.hpp"
#include "layout/rounding/whole_use.hpp"
#include "layout/solve/least_cost.hpp"
#include "layout/solve/search.hpp"

#include <algorithm>

namespace barrow::layout {
namespace {

bool is_large(const Grid& grid) {
    return grid.x.size() + grid.y.size() > 200;
}

Dive::Effort effort_of_dives(const Budget& budget, const Instance& instance) {
    const bool lengths = instance.one_dimensional();
    Dive::Effort effort;
    effort.steps = lengths ? 8 * budget.dive : budget.dive;
    effort.discrepancies = lengths ? 30 : 6;
    if (!lengths) {
        effort.ruin_steps = instance.has_offcuts() ? budget.dive_ruin / 2 : budget.dive_ruin;
        effort.few_pieces = Budget::few_pieces;
        effort.ruin_again =
            instance.pieces_wanted() > Budget::few_pieces; // the whole was not tried
    } else if (instance.sheets.size() == 1) {              // found by trial on published instances
        effort.bar_steps = 1'000'000;
        effort.few_on_bars = 24;
    }
    return effort;
}

/// For dives to a hundredth above the bound, with offcuts.
Dive::Effort effort_near(std::int64_t steps) {
    Dive::Effort effort;
    effort.steps = steps;
    effort.discrepancies = 6;
    // Ruin and recreate either fits the last few pieces onto offcuts quickly or not at all; with
    // more of them it seldom succeeds (found by trial).
    effort.ruin_steps = 4'000'000;
    effort.few_pieces = 16;
    return effort;
}

} // namespace

/// Chooses the pricing: exact over all sets where few can be cut, over lengths, or over rasters.
void Search::solve_lp() {
    auto patterns = std::make_unique<PatternSearch>();
    patterns->shapes = std::make_unique<SetShapes>(instance_);
    SetShapes& shapes = *patterns->shapes;
    if (!lengths() && shapes.enumerate(budget_.set_steps, budget_.most_sets, meter_)) {
        patterns->pricing = std::make_unique<SetPricing>(instance_, shapes);
        patterns->source = {&shapes, nullptr};
        return generate(std::move(patterns));
    }
    patterns->grid =
        std::make_unique<Grid>(grid_of(instance_, lengths() ? 200'000 : budget_.most_points));
    const Grid& grid = *patterns->grid;
    if (grid.empty()) return solve_coarse_lp();
    if (bars_alike()) {
        patterns->pricing = std::make_unique<BarPricing>(instance_, grid);
    } else if (lengths()) {
        patterns->pricing = std::make_unique<LinePricing>(instance_, grid);
    } else {
        patterns->pricing = std::make_unique<TablePricing>(instance_, grid);
        if (is_large(grid)) patterns->helper = std::make_unique<StripPricing>(instance_, grid);
        patterns->source = {nullptr, &grid};
    }
    generate(std::move(patterns));
}

/// Measures rounded up give patterns that hold; rounded down, a bound.
void Search::solve_coarse_lp() {
    auto patterns = std::make_unique<PatternSearch>();
    patterns->proves = false;
    patterns->rounded_up =
        std::make_unique<Instance>(rounded(instance_, budget_.coarse_points, Rounding::up));
    const Instance& larger = *patterns->rounded_up;
    const Instance smaller = rounded(instance_, budget_.coarse_points, Rounding::down);
    if (larger.items.empty() || smaller.items.empty()) return;
    bound_coarsely(smaller, grid_of(smaller, budget_.most_points));
    if (!open()) return;
    patterns->grid = std::make_unique<Grid>(grid_of(larger, budget_.most_points));
    patterns->pricing = std::make_unique<TablePricing>(larger, *patterns->grid);
    patterns->helper = std::make_unique<StripPricing>(larger, *patterns->grid);
    generate(std::move(patterns));
}

void Search::bound_coarsely(const Instance& smaller, const Grid& grid) {
    TablePricing pricing(smaller, grid);
    StripPricing helper(smaller, grid);
    PatternLp lp(smaller, meter_);
    lp.price_by(pricing, true);
    lp.help_by(helper);
    for (const Pattern& pattern : answer_.solution.patterns)
        lp.add(pattern.sheet, rebuilt(smaller, pattern.block));
    lp.generate(answer_.solution.cost, share(budget_.pattern_lp));
    prove(lp.bound());
}

void Search::generate(std::unique_ptr<PatternSearch> patterns) {
    patterns_ = std::move(patterns);
    patterns_->lp = std::make_unique<PatternLp>(instance_, meter_);
    PatternLp& lp = *patterns_->lp;
    lp.price_by(*patterns_->pricing, patterns_->proves);
    if (patterns_->helper) lp.help_by(*patterns_->helper);
    for (const Pattern& pattern : answer_.solution.patterns) lp.add(pattern.sheet, pattern.block);
    lp.generate(answer_.solution.cost, share(budget_.pattern_lp));
    prove(lp.bound());
    if (open() && bars_alike()) cover_bars(budget_.some_bars);
    cost_of_lp_ = answer_.solution.cost;
}

/// Many pieces of few kinds from several sheets: mostly proven optimal. (With one kind of sheet the
/// bound of the LP is rarely a sheet too low.)
void Search::search_corner() {
    const PatternLp& lp = *patterns_->lp;
    const Cost most = std::min(answer_.solution.cost - lp.step(), goal_);
    Cornered found =
        corner_search(instance_, patterns_->source, lp, most, share(budget_.corner), meter_);
    if (found.solution) take(std::move(*found.solution));
    prove(found.bound);
}

/// A small remainder is quick to search but may pack badly, so also round each pattern down by one
/// or two more sheets. A remainder that is still too large leaves one of its own.
void Search::solve_rests() {
    static const std::vector<std::vector<double>> less_at{{0, 1, 2}, {1}, {0}}; // by trial
    if (budget_.rest_gatherings == 0 || depth_ >= less_at.size()) return;
    for (const double less : less_at[depth_])
        if (open()) solve_rest(less);
}

void Search::solve_rest(double less) {
    PatternLp& lp = *patterns_->lp;
    if (!lp.resolve()) return;
    const Residual residual(instance_, lp, less);
    if (residual.rest().items.empty()) return;
    const Answer rest = search_for(residual.rest(), depth_ + 1, no_goal);
    if (!rest.solution.complete()) return;
    Solution solution = residual.whole(rest.solution);
    if (solution.cost < answer_.solution.cost) take(std::move(solution));
}

Answer Search::search_for(const Instance& instance, std::size_t depth, Cost goal) {
    Options options; // its costs are not reported to the caller
    std::int64_t spent = 0;
    options.progress = [&](const Progress& progress) {
        meter_.spend(progress.work * 1000 - spent);
        spent = progress.work * 1000;
        return !meter_.over();
    };
    Meter meter(options, std::max<std::int64_t>(0, meter_.left() / 1000));
    Search search(instance, budget_, meter, without_, depth, goal);
    run_stages(search, without_);
    meter_.spend(meter.steps() - spent);
    return search.answer();
}

bool Search::next_round() {
    const std::size_t patterns = patterns_->lp->columns().size();
    if (round_ < 0) {
        const bool improved = answer_.solution.cost < cost_of_lp_;
        rounds_ = !several() ? 1 : improved ? budget_.rest_rounds : budget_.rounds;
    } else if (patterns == patterns_before_) {
        return false;
    }
    patterns_before_ = patterns;
    return ++round_ < rounds_ && open() && !enough();
}

/// To the bound; with offcuts half a hundredth above it is enough, and the first try is short.
void Search::use_whole() {
    const std::int64_t steps =
        share(has_offcuts() && round_ == 0 ? budget_.whole_use / 4 : budget_.whole_use);
    const PatternLp& lp = *patterns_->lp;
    const Cost spare = has_offcuts() ? answer_.bound / 200 : 0;
    WholeUse search(instance_, *patterns_->lp, meter_);
    if (auto solution = search.run(std::min(answer_.solution.cost - lp.step(), goal_),
                                   answer_.bound + spare, steps))
        take(std::move(*solution));
}

/// Bisects between the bound and 1 % above it, starting there. With offcuts only.
void Search::dive_near() {
    const Cost step = patterns_->lp->step();
    dive_between(effort_near((round_ + 1) * budget_.near_dive), 3, [&](Cost low, Cost known) {
        const Cost high = std::min(answer_.bound + answer_.bound / 100, known - step);
        return high <= low ? low : low + (high - low + 1) / 2;
    });
}

void Search::dive_bars() {
    dive(budget_.dives);
}

void Search::dive() {
    dive(has_offcuts() ? 2 : budget_.dives);
}

/// Bisects between the bound and the best known cost. Bars of one kind nearly always reach the
/// bound, so that is tried first.
void Search::dive(int most) {
    const Cost step = patterns_->lp->step();
    dive_between(effort_of_dives(budget_, instance_), most, [&](Cost low, Cost known) {
        const Cost room = (known - low) / step;
        if (room < 2) return low;
        return low + (bars_alike() ? 1 : room / 2) * step;
    });
}

/// Dives to the cost that `aim` chooses between one proven or tried out of reach and the best
/// known; it returns the former when nothing lies between them.
template <class Aim>
void Search::dive_between(const Dive::Effort& effort, int most, const Aim& aim) {
    PatternLp& lp = *patterns_->lp;
    Dive dive(instance_, lp, meter_);
    Cost low = answer_.bound - lp.step();
    for (int tries = 0; tries < most && open() && !enough(); ++tries) {
        const Cost known =
            std::min(answer_.solution.cost, goal_ == no_goal ? no_goal : goal_ + lp.step());
        const Cost at = aim(low, known);
        if (at <= low) return;
        if (auto solution = dive.run(at, effort))
            take(std::move(*solution));
        else
            low = at;
    }
}

} // namespace barrow::layout
