#include "layout/search/least_cost.hpp"

#include "layout/bound/area.hpp"
#include "layout/bound/pattern_lp.hpp"
#include "layout/search/dive.hpp"
#include "layout/search/ruin_recreate.hpp"
#include "layout/sets/exact_cover.hpp"

#include <algorithm>

namespace barrow::layout {
namespace {

/// Steps given to each part; found by trial on the published instances.
struct Budget {
    std::int64_t first_ruin = 0;
    std::int64_t pattern_lp = 0;
    std::int64_t dive = 0;
    std::int64_t dive_ruin = 0; ///< within a dive, each time
    std::int64_t second_ruin = 0;
    std::int64_t most_pieces = 0; ///< that ruin and recreate is tried on
    std::size_t most_points = 0;  ///< of a raster, one axis
    std::int64_t set_steps = 0;   ///< for all sets of items that can be cut
    std::size_t most_sets = 0;
    std::int64_t few_set_steps = 0; ///< for an exact answer where few can be cut
};

Budget budget_of(Effort effort) {
    constexpr std::int64_t million = 1'000'000;
    switch (effort) {
    case Effort::quick:
        return {10 * million, 30 * million, 10 * million, 0,      15 * million,
                400,          200,          10 * million, 10'000, 3 * million};
    case Effort::normal:
        return {30 * million, 500 * million, 500 * million, 20 * million, 2000 * million,
                1000,         1000,          200 * million, 200'000,      10 * million};
    case Effort::thorough:
        return {
            100 * million, 10'000 * million, 5000 * million, 100 * million, 20'000 * million, 4000,
            2000,          1000 * million,   1'000'000,      100 * million};
    }
    return {};
}

class Searcher {
public:
    Searcher(const Instance& instance, Effort effort, Meter& meter)
        : instance_(instance), meter_(meter), budget_(budget_of(effort)) {}

    Answer run() {
        take(construct(instance_));
        if (answer_.solution.complete()) prove(area_bound(instance_));
        if (!answer_.solution.complete() || open()) {
            if (try_exactly()) return answer_;
        }
        if (!answer_.solution.complete()) {
            make_complete();
            if (!answer_.solution.complete()) return answer_;
        }
        prove(area_bound(instance_));
        if (open() && !one_dimensional()) ruin(budget_.first_ruin);
        if (open()) search_patterns();
        if (open() && !one_dimensional()) ruin(budget_.second_ruin);
        return answer_;
    }

private:
    /// Small instances at once and for good; true when done.
    bool try_exactly() {
        SetShapes shapes(instance_);
        if (!shapes.enumerate(budget_.few_set_steps, 2'000, meter_)) return false;
        ExactCover cover(instance_, shapes, meter_);
        switch (cover.run(budget_.few_set_steps, 20'000)) {
        case ExactCover::End::spent: return false;
        case ExactCover::End::impossible: return true;
        case ExactCover::End::solved: break;
        }
        take(cover.solution());
        prove(answer_.solution.cost);
        return true;
    }

    bool open() const { return answer_.bound < answer_.solution.cost && !meter_.over(); }

    void take(Solution solution) {
        answer_.solution = std::move(solution);
        meter_.found(answer_.solution.cost);
    }

    void prove(Cost bound) {
        answer_.bound = std::max(answer_.bound, bound);
        meter_.proved(answer_.bound);
    }

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
        return std::min(steps, pieces * pieces * 40'000);
    }

    /// Caps the cost ever lower until nothing is found within so many steps.
    void ruin(std::int64_t steps) {
        if (!small()) return;
        RuinRecreate search(instance_, 1, meter_);
        search.start(answer_.solution);
        steps = worth_while(steps);
        while (open() && search.search(answer_.solution.cost - 1, steps)) take(search.solution());
    }

    /// All heights alike and one of them a sheet's: lengths.
    bool one_dimensional() const {
        const Length height = instance_.items.front().height;
        return std::none_of(instance_.items.begin(), instance_.items.end(),
                            [&](const Item& i) { return i.turns || i.height != height; })
               && std::none_of(instance_.sheets.begin(), instance_.sheets.end(),
                               [&](const Sheet& s) { return s.height / 2 >= height; });
    }

    void search_patterns() {
        const bool lengths = one_dimensional();
        SetShapes shapes(instance_);
        std::unique_ptr<Pricing> pricing;
        Grid grid;
        if (!lengths && shapes.enumerate(budget_.set_steps, budget_.most_sets, meter_)) {
            pricing = std::make_unique<SetPricing>(instance_, shapes);
        } else {
            grid = grid_of(instance_, lengths ? 200'000 : budget_.most_points);
            if (grid.empty()) return;
            if (lengths)
                pricing = std::make_unique<LinePricing>(instance_, grid);
            else
                pricing = std::make_unique<TablePricing>(instance_, grid);
        }
        PatternLp lp(instance_, meter_);
        lp.price_by(*pricing);
        for (const Pattern& pattern : answer_.solution.patterns)
            lp.add(pattern.sheet, pattern.block);
        lp.generate(answer_.solution.cost, budget_.pattern_lp);
        prove(lp.bound());
        if (open()) dive(lp, lengths);
    }

    void dive(PatternLp& lp, bool lengths) {
        Dive dive(instance_, lp, meter_);
        const Dive::Effort effort{budget_.dive, lengths ? 0 : budget_.dive_ruin, 60,
                                  lengths ? 30 : 6};
        while (open()) {
            auto solution = dive.run(answer_.solution.cost - lp.step(), effort);
            if (!solution) return;
            take(std::move(*solution));
        }
    }

    const Instance& instance_;
    Meter& meter_;
    Budget budget_;
    Answer answer_;
};

} // namespace

Answer least_cost(const Instance& instance, Effort effort, Meter& meter) {
    return Searcher(instance, effort, meter).run();
}

std::int64_t work_limit(Effort effort) {
    switch (effort) {
    case Effort::quick: return 300'000;
    case Effort::normal: return 5'000'000;
    case Effort::thorough: return 60'000'000;
    }
    return 0;
}

} // namespace barrow::layout
