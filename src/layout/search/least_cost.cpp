#include "layout/search/least_cost.hpp"

#include "layout/bound/area.hpp"
#include "layout/bound/pattern_lp.hpp"
#include "layout/search/ruin_recreate.hpp"

#include <algorithm>

namespace barrow::layout {
namespace {

/// Steps given to each part; found by trial on the published instances.
struct Budget {
    std::int64_t first_ruin = 0;
    std::int64_t pattern_lp = 0;
    std::int64_t second_ruin = 0;
    std::int64_t most_pieces = 0; ///< that ruin and recreate is tried on
    std::size_t most_points = 0;  ///< of a raster, one axis
};

Budget budget_of(Effort effort) {
    switch (effort) {
    case Effort::quick: return {10'000'000, 30'000'000, 20'000'000, 400, 200};
    case Effort::normal: return {30'000'000, 500'000'000, 2'000'000'000, 1000, 1000};
    case Effort::thorough: return {100'000'000, 10'000'000'000, 20'000'000'000, 4000, 2000};
    }
    return {};
}

class Searcher {
public:
    Searcher(const Instance& instance, Effort effort, Meter& meter)
        : instance_(instance), meter_(meter), budget_(budget_of(effort)) {}

    Answer run() {
        take(construct(instance_));
        if (!answer_.solution.complete()) {
            make_complete();
            if (!answer_.solution.complete()) return answer_;
        }
        prove(area_bound(instance_));
        if (open()) ruin(budget_.first_ruin);
        if (open()) bound_by_patterns();
        if (open()) ruin(budget_.second_ruin);
        return answer_;
    }

private:
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

    void bound_by_patterns() {
        const Grid grid = grid_of(instance_, budget_.most_points);
        if (grid.empty()) return;
        PatternLp lp(instance_, grid, meter_);
        for (const Pattern& pattern : answer_.solution.patterns) lp.add(pattern);
        lp.generate(answer_.solution.cost, budget_.pattern_lp);
        prove(lp.bound());
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
