#include "layout/rounding/residual.hpp"
#include "layout/sheets/construct.hpp"
#include "layout/solve.hpp"
#include "layout/table/raster.hpp"

#include "support.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

using namespace barrow::layout;
using namespace barrow::layout::test;

namespace {

/// Kinds of piece that can be turned, from three kinds of sheet of about one area.
Job several(std::uint64_t seed, int kinds, std::int64_t most) {
    Dice dice(seed);
    Job job;
    job.stock = {stock("square", 500, 500, 250'000), stock("long", 600, 400, 240'000),
                 stock("between", 550, 450, 247'500, 40)};
    for (int kind = 0; kind < kinds; ++kind)
        job.pieces.push_back(piece("p" + std::to_string(kind), dice.roll(130, 370),
                                   dice.roll(130, 370), dice.roll(most / 2, most), Turn::quarter));
    return job;
}

std::vector<std::int64_t> counts_of(const Instance& instance, const Solution& solution) {
    std::vector<std::int64_t> counts(instance.items.size(), 0);
    for (const Pattern& pattern : solution.patterns)
        for (std::int64_t n = 0; n < pattern.copies; ++n) count_items(pattern.block, counts);
    return counts;
}

} // namespace

TEST_CASE("what is kept of an LP and an answer to the rest make a whole answer", "[residual]") {
    const Instance instance = instance_of(several(1, 8, 50));
    const Options options;
    Meter meter(options, 10'000'000);
    const Grid grid = grid_of(instance, 1000);
    TablePricing pricing(instance, grid);
    PatternLp lp(instance, meter);
    lp.price_by(pricing, true);
    lp.generate(INT64_MAX, 1'000'000'000);
    std::int64_t left_before = 0;
    for (const double less : {0.0, 1.0, 1e9}) {
        const Residual residual(instance, lp, less);
        const Instance& rest = residual.rest();
        CHECK(rest.pieces_wanted() >= left_before);
        left_before = rest.pieces_wanted();
        CHECK(std::all_of(rest.items.begin(), rest.items.end(),
                          [](const Item& item) { return item.demand > 0; }));
        const Solution answer = construct(rest, meter);
        REQUIRE(answer.complete());
        const Solution whole = residual.whole(answer);
        const std::vector<std::int64_t> counts = counts_of(instance, whole);
        Cost cost = 0;
        std::vector<std::int64_t> used(instance.sheets.size(), 0);
        for (const Pattern& pattern : whole.patterns) {
            const Sheet& sheet = instance.sheets[pattern.sheet];
            CHECK(pattern.block.width <= sheet.width);
            CHECK(pattern.block.height <= sheet.height);
            cost += pattern.copies * sheet.cost;
            used[pattern.sheet] += pattern.copies;
        }
        CHECK(whole.cost == cost);
        for (std::size_t kind = 0; kind < counts.size(); ++kind)
            CHECK(counts[kind] == instance.items[kind].demand);
        for (std::size_t s = 0; s < used.size(); ++s) CHECK(used[s] <= instance.sheets[s].copies);
        for (std::size_t s = 0; s < used.size(); ++s)
            if (instance.sheets[s].copies != unlimited)
                CHECK(rest.sheets[s].copies <= instance.sheets[s].copies);
    }
    // Nothing kept: the rest is all.
    CHECK(left_before == instance.pieces_wanted());
}

TEST_CASE("many pieces from several kinds of sheet come near the bound", "[residual]") {
    const Job job = several(4, 12, 60);
    Options options;
    options.most_work = 600'000;
    int calls = 0;
    std::int64_t work = 0;
    options.progress = [&](const Progress& progress) {
        ++calls;
        CHECK(progress.work >= work);
        CHECK(progress.cost >= progress.bound); // of the whole job, also while a rest is searched
        work = progress.work;
        return true;
    };
    const Outcome outcome = solve(job, options);
    INFO(faults(job, outcome));
    CHECK(faults(job, outcome).empty());
    CHECK(outcome.unplaced.empty());
    CHECK(calls > 50);
    // 39,667,500 in this work, and 39,632,500 in seven times as much, before rests were searched.
    CHECK(outcome.cost <= 39'630'000);
}
