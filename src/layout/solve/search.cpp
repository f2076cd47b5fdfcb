#include "layout/solve/search.hpp"

#include "base/wide.hpp"
#include "layout/bound/area.hpp"
#include "layout/bound/conservative_scales.hpp"
#include "layout/bound/needs.hpp"
#include "layout/finish/small_offcuts.hpp"
#include "layout/lengths/completion.hpp"
#include "layout/lengths/tight_cover.hpp"
#include "layout/rounding/recombination.hpp"
#include "layout/sets/exact_cover.hpp"
#include "layout/sets/tight_blocks.hpp"
#include "layout/sheets/construct.hpp"
#include "layout/sheets/renew.hpp"
#include "layout/sheets/ruin_recreate.hpp"
#include "layout/solve/least_cost.hpp"
#include "layout/solve/scarce.hpp"

#include <algorithm>
#include <numeric>

namespace barrow::layout {

/// Several kinds of sheet, and few pieces.
bool Search::gathers() const {
    return budget_.gatherings > 0 && !one_sheet() && few() && !has_offcuts() && !lengths();
}

/// One kind of sheet, few pieces, most of them unlike the others. (Where many are alike, long
/// searches come further.)
bool Search::unlike() const {
    const auto kinds = static_cast<std::int64_t>(instance_.items.size());
    return budget_.single_gatherings > 0 && one_sheet() && few()
           && instance_.pieces_wanted() <= 2 * kinds && !has_offcuts() && !lengths();
}

/// Within a hundredth of the bound: a long search would gain next to nothing.
bool Search::near() const {
    return goal_ == no_goal
           && base::Wide(answer_.solution.cost - answer_.bound) * 100 <= answer_.solution.cost;
}

/// The cost of an offcut is an estimate: with offcuts the last hundredth is not worth a search.
bool Search::enough() const {
    return near() && has_offcuts();
}

/// A given number of sheets may lose no more than a twentieth of their area.
bool Search::tight() const {
    if (goal_ == no_goal || lengths() || !few()) return false;
    const base::Wide area = area_wanted(instance_);
    return (sums_.most_area(limit()) - area) * 20 <= area;
}

void Search::join_tightly() {
    TightBlocks blocks(instance_, sums_, meter_);
    if (auto solution = blocks.run(limit(), share(budget_.tight), budget_.most_blocks))
        take(std::move(*solution));
}

void Search::take(Solution solution) {
    if (has_offcuts())
        solution.cost -= prefer_small_offcuts(instance_, solution.patterns, Ties::by_kind, meter_);
    answer_.solution = std::move(solution);
    meter_.found(answer_.solution.cost);
}

void Search::prove(Cost bound) {
    answer_.bound = std::max(answer_.bound, sums_.least_cost(area_wanted(instance_), bound));
    meter_.proved(answer_.bound);
}

void Search::build() {
    take(construct(instance_, meter_));
}

void Search::sum_stock() {
    Cost step = 0;
    for (const Sheet& sheet : instance_.sheets) step = std::gcd(step, sheet.cost);
    sums_ = StockSums(instance_, answer_.solution.cost, std::max<Cost>(step, 1));
    meter_.spend(sums_.steps());
    prove(area_bound(instance_));
}

/// Lists every set of items that fits a sheet and covers the demand with them: exact.
void Search::try_all_sets() {
    SetShapes shapes(instance_);
    if (!shapes.enumerate(budget_.few_set_steps, 2'000, meter_)) return;
    const StockSums nothing(instance_, 0, 1);
    ExactCover cover(instance_, shapes, nothing, meter_);
    const auto end = cover.run(ExactCover::any_cost, budget_.few_set_steps, 20'000);
    if (end == ExactCover::End::spent) return;
    settled_ = true;
    answer_.impossible = end == ExactCover::End::impossible;
    if (answer_.impossible) return;
    take(cover.solution());
    prove(answer_.solution.cost);
}

/// Where copies are short, construction may have wasted them. What a short search does not mend is
/// a search of its own (see scarce.hpp).
void Search::complete_answer() {
    if (small()) {
        RuinRecreate search(instance_, 1, meter_);
        search.start(answer_.solution);
        if (search.search(INT64_MAX, worth_while(budget_.first_ruin)))
            return take(search.solution());
    }
    const Scarce scarce(instance_);
    const Answer found = search_for(scarce.instance(), depth_, scarce.goal());
    if (found.impossible || found.bound > scarce.goal()) {
        answer_.impossible = settled_ = true;
        return;
    }
    if (!found.solution.complete() || found.solution.cost > scarce.goal()) return;
    Solution whole = scarce.whole(found.solution, meter_);
    if (whole.complete()) take(std::move(whole));
}

void Search::prove_by_scales() {
    std::int64_t steps = 0;
    prove(scaled_area_bound(instance_, steps));
    meter_.spend(steps);
}

/// What some sheets alone can hold must be paid for on these, in whole sheets.
void Search::prove_by_need() {
    std::int64_t steps = 0;
    const std::vector<Instance> parts = parts_by_need(instance_, steps);
    meter_.spend(steps);
    for (const Instance& part : parts) {
        const Cost most = answer_.solution.cost;
        Cost step = 0;
        for (const Sheet& sheet : part.sheets) step = std::gcd(step, sheet.cost);
        const StockSums sums(part, most, std::max<Cost>(step, 1));
        steps = sums.steps();
        const Cost least = std::max(area_bound(part), scaled_area_bound(part, steps));
        prove(sums.least_cost(area_wanted(part), least));
        meter_.spend(steps);
        if (!open()) return;
    }
}

/// Tries to meet the bound: as few bars as it allows. (While the search is open, a bar costs
/// something.)
void Search::complete_bars() {
    const std::int64_t bars = answer_.bound / instance_.sheets.front().cost;
    if (auto solution = Completion(instance_, meter_).run(bars, budget_.first_bars))
        take(std::move(*solution));
}

/// Where the LP needs nearly all of the bound's bars: every filling that wastes little enough.
void Search::cover_bars(std::int64_t steps) {
    if (patterns_->lp->proof().empty()) return;
    const Cost cost = instance_.sheets.front().cost;
    const std::int64_t bars = answer_.bound / cost;
    TightCover cover(instance_, patterns_->lp->proof(), meter_);
    switch (cover.run(bars, steps)) {
    case TightCover::End::spent: return;
    case TightCover::End::impossible: return prove((bars + 1) * cost);
    case TightCover::End::solved: return take(cover.solution());
    }
}

void Search::cover_bars() {
    cover_bars(budget_.bars);
}

/// A search among few pieces is over soon; more steps would only repeat it.
std::int64_t Search::worth_while(std::int64_t steps) const {
    const std::int64_t pieces = instance_.pieces_wanted();
    return std::min(steps, pieces * pieces * 250'000);
}

/// Lowers the cap on the cost until nothing is found within so many steps.
void Search::ruin(std::int64_t steps, std::uint64_t seed) {
    if (!small()) return;
    RuinRecreate search(instance_, seed, meter_);
    search.start(answer_.solution);
    steps = worth_while(steps);
    while (open() && search.search(limit(), steps)) take(search.solution());
}

void Search::ruin_first() {
    ruin(unlike() && !part() ? budget_.single_ruin : budget_.first_ruin, 1);
}

/// Several starts find more than one long search, but with many pieces none of them would get far
/// (found by trial).
void Search::ruin_on() {
    const std::uint64_t beginnings = few() ? budget_.beginnings : 1;
    const auto times = static_cast<std::int64_t>(budget_.beginnings / beginnings);
    for (std::uint64_t seed = 2; seed < 2 + beginnings; ++seed)
        if (open() && !near()) ruin(times * budget_.second_ruin, seed);
}

/// Where a cheaper answer can waste little: lists every set that wastes no more, and covers the
/// demand with them.
void Search::cover_all_sets() {
    while (open()) {
        const Cost most = limit();
        const base::Wide slack = sums_.most_area(most) - area_wanted(instance_);
        if (slack < 0) return prove(most + 1);
        SetShapes shapes(instance_);
        shapes.waste_at_most(base::narrow(slack).value_or(INT64_MAX));
        if (!shapes.enumerate(share(budget_.settle_steps), budget_.most_sets, meter_)) return;
        ExactCover cover(instance_, shapes, sums_, meter_);
        switch (cover.run(most, share(budget_.cover_steps), budget_.most_states)) {
        case ExactCover::End::spent: return;
        case ExactCover::End::impossible: return prove(most + 1);
        case ExactCover::End::solved: take(cover.solution());
        }
    }
}

void Search::renew_sheets() {
    Solution solution = answer_.solution;
    const Cost goal = answer_.bound + (has_offcuts() ? answer_.bound / 100 : 0);
    renew(instance_, goal, share(budget_.renewal), meter_, solution);
    if (solution.cost < answer_.solution.cost) take(std::move(solution));
}

void Search::gather() {
    gather(part() ? budget_.rest_gatherings : budget_.gatherings, 2, budget_.gathering);
}

/// A sheet less is found seldom, so all rounds are made.
void Search::gather_unlike() {
    gather(budget_.single_gatherings, budget_.single_gatherings, budget_.single_gathering);
}

/// Searches from several starts and combines the patterns all of them saw, until that has not
/// helped for so many rounds.
void Search::gather(int rounds, int most_idle, std::int64_t steps) {
    PatternPool pool(instance_);
    pool.add(answer_.solution);
    int idle = 0;
    for (int round = 0; round < rounds && idle < most_idle && open(); ++round) {
        const Cost before = answer_.solution.cost;
        gather_once(pool, round, steps);
        idle = answer_.solution.cost < before ? 0 : idle + 1;
    }
}

void Search::gather_once(PatternPool& pool, int round, std::int64_t steps) {
    const std::uint64_t seed = static_cast<std::uint64_t>(round) + 2;
    const std::int64_t end = meter_.steps() + worth_while(steps);
    RuinRecreate search(instance_, seed, meter_);
    search.collect(pool);
    search.start(answer_.solution);
    while (open() && search.search(limit(), end - meter_.steps())) {
        take(search.solution());
        pool.add(answer_.solution);
    }
    if (!open()) return;
    Recombining effort{steps, budget_.nodes};
    if (unlike()) {
        effort.proper_steps = proper_in_time_ ? budget_.proper_lp : 0;
        effort.dive_steps = round < budget_.rounds_at_random ? budget_.dive_at_random : 0;
        effort.seed = seed;
    }
    Recombined found = recombine(instance_, pool, limit(), effort, meter_);
    proper_in_time_ = proper_in_time_ && found.all_known;
    prove(found.bound);
    if (found.solution) take(std::move(*found.solution));
}

} // namespace barrow::layout
