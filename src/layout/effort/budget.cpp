#include "layout/effort/budget.hpp"

namespace barrow::layout {

Budget budget_of(Effort effort) {
    constexpr std::int64_t million = 1'000'000;
    Budget budget;
    switch (effort) {
    case Effort::quick:
        budget.first_ruin = 10 * million;
        budget.first_bars = 2 * million;
        budget.some_bars = million;
        budget.bars = 5 * million;
        budget.pattern_lp = 30 * million;
        budget.whole_use = 20 * million;
        budget.corner = 20 * million;
        budget.dive = 10 * million;
        budget.renewal = 10 * million;
        budget.second_ruin = 15 * million;
        budget.most_pieces = 400;
        budget.most_points = 200;
        budget.coarse_points = 150;
        budget.dives = 2;
        budget.set_steps = 10 * million;
        budget.settle_steps = 10 * million;
        budget.most_sets = 10'000;
        budget.cover_steps = 10 * million;
        budget.most_states = 20'000;
        budget.few_set_steps = 3 * million;
        budget.tight = 25 * million;
        budget.most_blocks = 10'000;
        break;
    case Effort::normal:
        budget.first_ruin = 30 * million;
        budget.first_bars = 10 * million;
        budget.some_bars = 2 * million;
        budget.bars = 20 * million;
        budget.pattern_lp = 3000 * million;
        budget.whole_use = 300 * million;
        budget.rounds = 3;
        budget.corner = 2000 * million;
        budget.rest_gatherings = 3;
        budget.dive = 300 * million;
        budget.dive_ruin = 60 * million;
        budget.near_dive = 30 * million;
        budget.gathering = 300 * million;
        budget.gatherings = 5;
        budget.single_ruin = 100 * million;
        budget.single_gathering = 600 * million;
        budget.single_gatherings = 4;
        budget.proper_lp = 3000 * million;
        budget.dive_at_random = 2000 * million;
        budget.rounds_at_random = 2;
        budget.nodes = 300;
        budget.renewal = 300 * million;
        budget.second_ruin = 1000 * million;
        budget.beginnings = 4;
        budget.most_pieces = 1000;
        budget.most_points = 2000;
        budget.coarse_points = 550;
        budget.dives = 6;
        budget.set_steps = 60 * million;
        budget.settle_steps = 800 * million;
        budget.most_sets = 200'000;
        budget.cover_steps = 500 * million;
        budget.most_states = 300'000;
        budget.few_set_steps = 10 * million;
        budget.tight = 1000 * million;
        budget.most_blocks = 80'000;
        break;
    case Effort::thorough:
        budget.first_ruin = 100 * million;
        budget.first_bars = 50 * million;
        budget.some_bars = 20 * million;
        budget.bars = 2000 * million;
        budget.pattern_lp = 20'000 * million;
        budget.whole_use = 1000 * million;
        budget.rounds = 6;
        budget.corner = 10'000 * million;
        budget.rest_gatherings = 8;
        budget.rest_rounds = 4;
        budget.dive = 5000 * million;
        budget.dive_ruin = 100 * million;
        budget.near_dive = 100 * million;
        budget.gathering = 1500 * million;
        budget.gatherings = 20;
        budget.single_ruin = 300 * million;
        budget.single_gathering = 1500 * million;
        budget.single_gatherings = 12;
        budget.proper_lp = 20'000 * million;
        budget.dive_at_random = 8000 * million;
        budget.rounds_at_random = 12;
        budget.nodes = 2000;
        budget.renewal = 10000 * million;
        budget.second_ruin = 2000 * million;
        budget.beginnings = 10;
        budget.most_pieces = 4000;
        budget.most_points = 4000;
        budget.coarse_points = 1000;
        budget.dives = 12;
        budget.set_steps = 1000 * million;
        budget.settle_steps = 2000 * million;
        budget.most_sets = 1'000'000;
        budget.cover_steps = 5000 * million;
        budget.most_states = 1'000'000;
        budget.few_set_steps = 100 * million;
        budget.tight = 12'000 * million;
        budget.most_blocks = 400'000;
        break;
    }
    return budget;
}

std::int64_t work_limit(Effort effort) {
    switch (effort) {
    case Effort::quick: return 150'000;
    case Effort::normal: return 3'200'000;
    case Effort::thorough: return 40'000'000;
    }
    return 0;
}

} // namespace barrow::layout
