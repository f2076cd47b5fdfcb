#include "layout/search/least_cost.hpp"

#include "base/wide.hpp"
#include "layout/bound/area.hpp"
#include "layout/bound/bar_pricing.hpp"
#include "layout/bound/conservative_scales.hpp"
#include "layout/bound/pattern_lp.hpp"
#include "layout/bound/stock_sums.hpp"
#include "layout/bound/strip_pricing.hpp"
#include "layout/finish/small_offcuts.hpp"
#include "layout/model/rounded.hpp"
#include "layout/search/budget.hpp"
#include "layout/search/completion.hpp"
#include "layout/search/corner_search.hpp"
#include "layout/search/dive.hpp"
#include "layout/search/recombination.hpp"
#include "layout/search/renew.hpp"
#include "layout/search/residual.hpp"
#include "layout/search/ruin_recreate.hpp"
#include "layout/search/tight_cover.hpp"
#include "layout/search/whole_use.hpp"
#include "layout/sets/exact_cover.hpp"

#include <algorithm>
#include <numeric>

namespace barrow::layout {
namespace {

class Searcher {
public:
    Searcher(const Instance& instance, const Budget& budget, Meter& meter, std::size_t depth = 0)
        : instance_(instance), meter_(meter), budget_(budget), depth_(depth),
          sums_(instance, 0, 1) {}

    Answer run() {
        take(construct(instance_));
        if (answer_.solution.complete()) count_stock();
        if (!answer_.solution.complete() || open()) {
            if (try_exactly()) return answer_;
        }
        if (!answer_.solution.complete()) {
            make_complete();
            if (!answer_.solution.complete()) return answer_;
        }
        count_stock();
        if (open() && !one_dimensional()) prove_by_scales();
        if (open() && bars_alike()) complete_bars();
        if (open() && !one_dimensional() && few())
            ruin(one_kind_few() ? budget_.single_ruin : budget_.first_ruin, 1);
        if (open()) search_patterns();
        if (open() && gathers()) gather(budget_.gatherings, 2, budget_.gathering);
        if (open() && one_kind_few())
            gather(budget_.single_gatherings, budget_.single_gatherings, budget_.single_gathering);
        if (open() && !one_dimensional() && !enough()) settle();
        if (open() && !one_dimensional() && !gathers() && !enough()) renew_some();
        if (open() && !one_dimensional() && !one_kind_few()) search_on();
        return answer_;
    }

    /// For what an LP left over.
    Solution run_on_rest() {
        take(construct(instance_));
        if (!answer_.solution.complete()) return answer_.solution;
        count_stock();
        if (open()) ruin(budget_.first_ruin, 1); // its sheets are the LP's first columns
        if (open()) search_patterns();
        if (open() && gathers()) gather(budget_.rest_gatherings, 2, budget_.gathering);
        return answer_.solution;
    }

private:
    void count_stock() {
        Cost step = 0;
        for (const Sheet& sheet : instance_.sheets) step = std::gcd(step, sheet.cost);
        sums_ = StockSums(instance_, answer_.solution.cost, std::max<Cost>(step, 1));
        meter_.spend(sums_.steps());
        prove(area_bound(instance_));
    }

    bool bars_alike() const { return one_dimensional() && instance_.sheets.size() == 1; }

    /// As few bars as the bound says. (While anything is open, a bar costs something.)
    void complete_bars() {
        const std::int64_t bars = answer_.bound / instance_.sheets.front().cost;
        if (auto solution = Completion(instance_, meter_).run(bars, budget_.first_bars))
            take(std::move(*solution));
    }

    /// Where the LP needs nearly all that so few bars have, in all ways that are left.
    void cover_bars(const PatternLp& lp, std::int64_t steps) {
        if (lp.proof().empty()) return;
        const Cost cost = instance_.sheets.front().cost;
        const std::int64_t bars = answer_.bound / cost;
        TightCover cover(instance_, lp.proof(), meter_);
        switch (cover.run(bars, steps)) {
        case TightCover::End::spent: return;
        case TightCover::End::impossible: return prove((bars + 1) * cost);
        case TightCover::End::solved: return take(cover.solution());
        }
    }

    void prove_by_scales() {
        std::int64_t steps = 0;
        prove(scaled_area_bound(instance_, steps));
        meter_.spend(steps);
    }

    /// Where an answer that costs less can waste but little, looks through all of them.
    void settle() {
        while (open()) {
            const Cost limit = answer_.solution.cost - 1;
            const base::Wide slack = sums_.most_area(limit) - area_wanted(instance_);
            if (slack < 0) return prove(answer_.solution.cost);
            SetShapes shapes(instance_);
            shapes.waste_at_most(base::narrow(slack).value_or(INT64_MAX));
            if (!shapes.enumerate(budget_.settle_steps, budget_.most_sets, meter_)) return;
            ExactCover cover(instance_, shapes, sums_, meter_);
            switch (cover.run(limit, budget_.cover_steps, budget_.most_states)) {
            case ExactCover::End::spent: return;
            case ExactCover::End::impossible: return prove(answer_.solution.cost);
            case ExactCover::End::solved: take(cover.solution());
            }
        }
    }

    /// Small instances at once and for good; true when done.
    bool try_exactly() {
        SetShapes shapes(instance_);
        if (!shapes.enumerate(budget_.few_set_steps, 2'000, meter_)) return false;
        const StockSums nothing(instance_, 0, 1);
        ExactCover cover(instance_, shapes, nothing, meter_);
        switch (cover.run(ExactCover::any_cost, budget_.few_set_steps, 20'000)) {
        case ExactCover::End::spent: return false;
        case ExactCover::End::impossible: return true;
        case ExactCover::End::solved: break;
        }
        take(cover.solution());
        prove(answer_.solution.cost);
        return true;
    }

    bool open() const { return answer_.bound < answer_.solution.cost && !meter_.over(); }

    void renew_some() {
        Solution solution = answer_.solution;
        const Cost goal = answer_.bound + (has_offcuts() ? answer_.bound / 100 : 0);
        renew(instance_, goal, budget_.renewal, meter_, solution);
        if (solution.cost < answer_.solution.cost) take(std::move(solution));
    }

    /// Within a hundredth of the bound: a long search would gain next to nothing.
    bool near() const {
        return base::Wide(answer_.solution.cost - answer_.bound) * 100 <= answer_.solution.cost;
    }

    bool has_offcuts() const { return instance_.has_offcuts(); }
    bool one_dimensional() const { return instance_.one_dimensional(); }

    /// What an offcut costs is an estimate: with them a hundredth is not worth a search.
    bool enough() const { return near() && has_offcuts(); }

    void take(Solution solution) {
        if (has_offcuts())
            solution.cost -= prefer_small_offcuts(instance_, solution.patterns, meter_);
        answer_.solution = std::move(solution);
        meter_.found(answer_.solution.cost);
    }

    void prove(Cost bound) {
        answer_.bound = std::max(answer_.bound, sums_.least_cost(area_wanted(instance_), bound));
        meter_.proved(answer_.bound);
    }

    bool few() const { return instance_.pieces_wanted() <= Budget::few_pieces; }

    bool small() const { return instance_.pieces_wanted() <= budget_.most_pieces; }

    /// Where copies are short, construction may have wasted them.
    void make_complete() {
        if (!small()) return;
        RuinRecreate search(instance_, 1, meter_);
        search.start(answer_.solution);
        if (search.search(INT64_MAX, worth_while(budget_.first_ruin))) take(search.solution());
    }

    /// Few pieces are soon tried in every way that ruin and recreate can find.
    std::int64_t worth_while(std::int64_t steps) const {
        const std::int64_t pieces = instance_.pieces_wanted();
        return std::min(steps, pieces * pieces * 250'000);
    }

    /// Caps the cost ever lower until nothing is found within so many steps.
    void ruin(std::int64_t steps, std::uint64_t seed) {
        if (!small()) return;
        RuinRecreate search(instance_, seed, meter_);
        search.start(answer_.solution);
        steps = worth_while(steps);
        while (open() && search.search(answer_.solution.cost - 1, steps)) take(search.solution());
    }

    /// Several kinds of sheet, and few pieces.
    bool gathers() const {
        return budget_.gatherings > 0 && instance_.sheets.size() > 1 && few() && !has_offcuts()
               && !one_dimensional();
    }

    /// One kind of sheet, few pieces, most of them unlike the others (where many are alike, long
    /// searches come further): a sheet less is found seldom, so all rounds are made.
    bool one_kind_few() const {
        const auto kinds = static_cast<std::int64_t>(instance_.items.size());
        return budget_.single_gatherings > 0 && instance_.sheets.size() == 1 && few()
               && instance_.pieces_wanted() <= 2 * kinds && !has_offcuts() && !one_dimensional();
    }

    /// Searches from several beginnings, and after each puts together what all of them saw; until
    /// that helps no more for so many rounds.
    void gather(int rounds, int most_idle, std::int64_t steps) {
        PatternPool pool(instance_);
        pool.add(answer_.solution);
        int idle = 0;
        for (int round = 0; round < rounds && idle < most_idle && open(); ++round) {
            const Cost before = answer_.solution.cost;
            gather_once(pool, round, steps);
            idle = answer_.solution.cost < before ? 0 : idle + 1;
        }
    }

    void gather_once(PatternPool& pool, int round, std::int64_t steps) {
        const std::uint64_t seed = static_cast<std::uint64_t>(round) + 2;
        const std::int64_t end = meter_.steps() + worth_while(steps);
        RuinRecreate search(instance_, seed, meter_);
        search.collect(pool);
        search.start(answer_.solution);
        while (open() && search.search(answer_.solution.cost - 1, end - meter_.steps())) {
            take(search.solution());
            pool.add(answer_.solution);
        }
        if (!open()) return;
        Recombining effort{steps, budget_.nodes};
        if (one_kind_few()) {
            effort.proper_steps = proper_in_time_ ? budget_.proper_lp : 0;
            effort.dive_steps = round < budget_.rounds_at_random ? budget_.dive_at_random : 0;
            effort.seed = seed;
        }
        Recombined found = recombine(instance_, pool, answer_.solution.cost - 1, effort, meter_);
        proper_in_time_ = proper_in_time_ && found.all_known;
        prove(found.bound);
        if (found.solution) take(std::move(*found.solution));
    }

    /// Several beginnings come further than one long search, but with many pieces each of them
    /// would end before it has come anywhere (found by trial).
    void search_on() {
        const std::uint64_t beginnings = few() ? budget_.beginnings : 1;
        const auto times = static_cast<std::int64_t>(budget_.beginnings / beginnings);
        for (std::uint64_t seed = 2; seed < 2 + beginnings; ++seed)
            if (open() && !near()) ruin(times * budget_.second_ruin, seed);
    }

    void search_patterns() {
        const bool lengths = one_dimensional();
        SetShapes shapes(instance_);
        if (!lengths && shapes.enumerate(budget_.set_steps, budget_.most_sets, meter_)) {
            SetPricing pricing(instance_, shapes);
            return search_with(pricing, nullptr, true, {&shapes, nullptr});
        }
        const Grid grid = grid_of(instance_, lengths ? 200'000 : budget_.most_points);
        if (grid.empty()) return search_coarsely();
        if (bars_alike()) {
            BarPricing pricing(instance_, grid);
            return search_with(pricing, nullptr, true, {});
        }
        if (lengths) {
            LinePricing pricing(instance_, grid);
            return search_with(pricing, nullptr, true, {});
        }
        TablePricing pricing(instance_, grid);
        StripPricing helper(instance_, grid);
        search_with(pricing, large(grid) ? &helper : nullptr, true, {nullptr, &grid});
    }

    static bool large(const Grid& grid) { return grid.x.size() + grid.y.size() > 200; }

    void search_with(Pricing& pricing, Pricing* helper, bool proves, const PatternSource& source) {
        PatternLp lp(instance_, meter_);
        lp.price_by(pricing, proves);
        if (helper != nullptr) lp.help_by(*helper);
        for (const Pattern& pattern : answer_.solution.patterns)
            lp.add(pattern.sheet, pattern.block);
        lp.generate(answer_.solution.cost, budget_.pattern_lp);
        prove(lp.bound());
        if (open() && bars_alike()) cover_bars(lp, budget_.some_bars);
        if (gathers()) return; // comes further with so few
        const bool several = proves && instance_.sheets.size() > 1;
        const Cost before = answer_.solution.cost;
        if (several && !has_offcuts() && !one_dimensional()) {
            if (depth_ == 0 && !few()) look_in_corner(lp, source);
            if (open()) solve_rests(lp);
        }
        if (depth_ > 0) return;
        const int more = answer_.solution.cost < before ? budget_.rest_rounds : budget_.rounds;
        const int rounds = several ? more : 1;
        // Dives make patterns for what is left over; whole uses combine them with the others.
        for (int round = 0; round < rounds && open() && !enough(); ++round) {
            const std::size_t patterns = lp.columns().size();
            if (bars_alike()) dive(lp, budget_.dives);
            if (open() && bars_alike()) cover_bars(lp, budget_.bars);
            if (!open()) break;
            if (has_offcuts() && !one_dimensional()) dive_near(lp, (round + 1) * budget_.near_dive);
            if (!open() || enough()) break;
            use_whole(lp, has_offcuts() && round == 0 ? budget_.whole_use / 4 : budget_.whole_use);
            if (open() && !enough()) dive(lp, has_offcuts() ? 2 : budget_.dives);
            if (lp.columns().size() == patterns) break;
        }
    }

    /// Many pieces of few kinds from several sheets: mostly for good. (With one kind of sheet the
    /// bound of the LP is rarely a sheet too low.)
    void look_in_corner(const PatternLp& lp, const PatternSource& source) {
        const Cost limit = answer_.solution.cost - lp.step();
        Cornered found = corner_search(instance_, source, lp, limit, budget_.corner, meter_);
        if (found.solution) take(std::move(*found.solution));
        prove(found.bound);
    }

    /// Little left over is soon searched, but may not go together well; a sheet or two less of each
    /// pattern leave more. What is still too much for a search leaves a rest of its own.
    void solve_rests(PatternLp& lp) {
        static const std::vector<std::vector<double>> less_at{{0, 1, 2}, {1}, {0}}; // by trial
        if (budget_.rest_gatherings == 0 || depth_ >= less_at.size()) return;
        for (const double less : less_at[depth_])
            if (open()) solve_rest(lp, less);
    }

    void solve_rest(PatternLp& lp, double less) {
        if (!lp.resolve()) return;
        const Residual residual(instance_, lp, less);
        if (residual.rest().items.empty()) return;
        Options options; // the costs of the rest are not told to the caller
        std::int64_t spent = 0;
        options.progress = [&](const Progress& progress) {
            meter_.spend(progress.work * 1000 - spent);
            spent = progress.work * 1000;
            return !meter_.over();
        };
        Meter meter(options, std::max<std::int64_t>(0, meter_.left() / 1000));
        Solution rest = Searcher(residual.rest(), budget_, meter, depth_ + 1).run_on_rest();
        meter_.spend(meter.steps() - spent);
        if (!rest.complete()) return;
        Solution solution = residual.whole(rest);
        if (solution.cost < answer_.solution.cost) take(std::move(solution));
    }

    /// To the bound; with offcuts, where a hundredth above is enough, half of that and not for
    /// long.
    void use_whole(PatternLp& lp, std::int64_t steps) {
        const Cost spare = has_offcuts() ? answer_.bound / 200 : 0;
        WholeUse search(instance_, lp, meter_);
        if (auto solution =
                search.run(answer_.solution.cost - lp.step(), answer_.bound + spare, steps))
            take(std::move(*solution));
    }

    /// Measures rounded up give patterns that hold; rounded down, a bound.
    void search_coarsely() {
        const Instance larger = rounded(instance_, budget_.coarse_points, Rounding::up);
        const Instance smaller = rounded(instance_, budget_.coarse_points, Rounding::down);
        if (larger.items.empty() || smaller.items.empty()) return;
        const Grid below = grid_of(smaller, budget_.most_points);
        bound_coarsely(smaller, below);
        const Grid above = grid_of(larger, budget_.most_points);
        TablePricing pricing(larger, above);
        StripPricing helper(larger, above);
        if (open()) search_with(pricing, &helper, false, {});
    }

    void bound_coarsely(const Instance& smaller, const Grid& grid) {
        TablePricing pricing(smaller, grid);
        StripPricing helper(smaller, grid);
        PatternLp lp(smaller, meter_);
        lp.price_by(pricing, true);
        lp.help_by(helper);
        for (const Pattern& pattern : answer_.solution.patterns)
            lp.add(pattern.sheet, rebuilt(smaller, pattern.block));
        lp.generate(answer_.solution.cost, budget_.pattern_lp);
        prove(lp.bound());
    }

    /// With offcuts: to half a hundredth above the bound, or else ever nearer to a whole one.
    void dive_near(PatternLp& lp, std::int64_t steps) {
        dive_between(lp, effort_near(steps), 3, [&](Cost low, Cost known) {
            const Cost high = std::min(answer_.bound + answer_.bound / 100, known - lp.step());
            return high <= low ? low : low + (high - low + 1) / 2;
        });
    }

    /// Half as dear as what is known above the bound, then ever nearer to the one or the other.
    /// Bars of one kind nearly always come to the bound, so that is tried first.
    void dive(PatternLp& lp, int most) {
        dive_between(lp, effort_of_dives(budget_, instance_), most, [&](Cost low, Cost known) {
            const Cost room = (known - low) / lp.step();
            if (room < 2) return low;
            return low + (bars_alike() ? 1 : room / 2) * lp.step();
        });
    }

    /// Dives to what `aim` says between a cost not to be reached and the one known; nothing between
    /// them: the former.
    template <class Aim>
    void dive_between(PatternLp& lp, const Dive::Effort& effort, int most, const Aim& aim) {
        Dive dive(instance_, lp, meter_);
        Cost low = answer_.bound - lp.step();
        for (int tries = 0; tries < most && open() && !enough(); ++tries) {
            const Cost at = aim(low, answer_.solution.cost);
            if (at <= low) return;
            if (auto solution = dive.run(at, effort))
                take(std::move(*solution));
            else
                low = at;
        }
    }

    const Instance& instance_;
    Meter& meter_;
    Budget budget_;
    std::size_t depth_ = 0;      ///< above 0: for what an LP left over
    bool proper_in_time_ = true; ///< all proper patterns that matter were known within the budget
    StockSums sums_;             ///< up to the cost of the first answer
    Answer answer_;
};

} // namespace

Answer least_cost(const Instance& instance, Effort effort, Meter& meter) {
    return Searcher(instance, budget_of(effort), meter).run();
}

std::int64_t work_limit(Effort effort) {
    switch (effort) {
    case Effort::quick: return 300'000;
    case Effort::normal: return 50000000;
    case Effort::thorough: return 120'000'000;
    }
    return 0;
}

} // namespace barrow::layout
