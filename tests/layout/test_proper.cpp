#include "layout/columns/pattern_lp.hpp"
#include "layout/columns/proper_pricing.hpp"
#include "layout/rounding/recombination.hpp"
#include "layout/sets/set_shapes.hpp"
#include "layout/table/raster.hpp"

#include "support.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

using namespace barrow::layout;
using namespace barrow::layout::test;

namespace {

/// Pieces mostly unlike each other, few on each sheet. Costs without a common factor, so that
/// bounds are not rounded up by much.
Job unlike(std::uint64_t seed, int kinds, Measure least, Measure most) {
    Dice dice(seed);
    Job job;
    job.stock = {stock("square", 100, 100, 1000), stock("long", 110, 90, 991)};
    for (int kind = 0; kind < kinds; ++kind)
        job.pieces.push_back(piece("p" + std::to_string(kind), dice.roll(least, most),
                                   dice.roll(least, most), dice.roll(1, 2),
                                   kind % 2 == 0 ? Turn::quarter : Turn::none));
    return job;
}

std::int64_t worth(const Block& block, const std::vector<std::int64_t>& prices,
                   const std::vector<std::int64_t>& most) {
    std::vector<std::int64_t> counts(prices.size(), 0);
    count_items(block, counts);
    std::int64_t sum = 0;
    for (std::size_t i = 0; i < prices.size(); ++i) {
        CHECK(counts[i] <= most[i]);
        sum += counts[i] * prices[i];
    }
    return sum;
}

} // namespace

TEST_CASE("the best proper pattern is as good as the best of all sets", "[proper]") {
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        Job job = unlike(seed, 9, 20, 70);
        job.stock.push_back(stock("strip", 150, 45, 700));
        const Instance instance = instance_of(job);
        SetShapes shapes(instance);
        const Options options;
        Meter meter(options, 10'000'000);
        REQUIRE(shapes.enumerate(INT64_MAX, 1'000'000, meter));
        SetPricing all(instance, shapes);
        ProperPricing proper(instance);
        Dice dice(seed + 100);
        std::vector<std::int64_t> prices;
        std::vector<std::int64_t> most;
        for (const Item& item : instance.items) {
            prices.push_back(dice.roll(0, 1000));
            most.push_back(dice.roll(0, item.demand));
        }
        all.run(prices, most);
        proper.run(prices, most);
        for (std::size_t s = 0; s < instance.sheets.size(); ++s) {
            CHECK(proper.best(s) <= all.best(s));
            CHECK(proper.proven(s) >= all.best(s));
            CHECK(proper.best(s) == all.best(s)); // so small that it is always proven
            if (proper.best(s) > 0) CHECK(worth(proper.block(s), prices, most) == proper.best(s));
        }
    }
}

TEST_CASE("proper patterns prove no less than patterns of unlimited copies, and no more than true",
          "[proper]") {
    int better = 0;
    for (std::uint64_t seed = 1; seed <= 12; ++seed) {
        const Instance instance = instance_of(unlike(seed, 12, 25, 75));
        const Options options;
        Meter meter(options, 100'000'000);
        SetShapes shapes(instance);
        REQUIRE(shapes.enumerate(INT64_MAX, 1'000'000, meter));
        const Grid grid = grid_of(instance, 1000);
        const auto bound_by = [&](Pricing& pricing) {
            PatternLp lp(instance, meter);
            lp.price_by(pricing, true);
            CHECK(lp.generate(INT64_MAX, INT64_MAX / 2) == PatternLp::End::optimal);
            return lp.bound();
        };
        SetPricing sets(instance, shapes);
        TablePricing table(instance, grid);
        ProperPricing proper(instance);
        const Cost exact = bound_by(sets);
        const Cost relaxed = bound_by(table);
        CHECK(bound_by(proper) == exact);
        CHECK(relaxed <= exact);
        better += relaxed < exact;
    }
    CHECK(better > 0);
}

TEST_CASE("costs of many digits are bounded by proper patterns as others are", "[proper]") {
    Job job = unlike(5, 12, 25, 75);
    for (Stock& entry : job.stock) entry.cost *= 10'000'000;
    const Instance instance = instance_of(job);
    const Options options;
    Meter meter(options, 100'000'000);
    SetShapes shapes(instance);
    REQUIRE(shapes.enumerate(INT64_MAX, 1'000'000, meter));
    SetPricing sets(instance, shapes);
    ProperPricing proper(instance);
    const auto bound_by = [&](Pricing& pricing) {
        PatternLp lp(instance, meter);
        lp.price_by(pricing, true);
        CHECK(lp.generate(INT64_MAX, INT64_MAX / 2) == PatternLp::End::optimal);
        return lp.bound();
    };
    CHECK(bound_by(proper) == bound_by(sets));
    CHECK(bound_by(proper) > 0);
}

TEST_CASE("dives at random find what a hand can cut, and are the same every time", "[proper]") {
    // Eight sheets of 100 x 100, each cut into four that no other sheet's pieces match.
    Job job;
    job.stock = {stock("square", 100, 100, 1)};
    for (Measure n = 0; n < 8; ++n) {
        const Measure x = 31 + 2 * n;
        const Measure y = 62 - 3 * n;
        const std::string name = "p" + std::to_string(n);
        job.pieces.push_back(piece(name + "a", x, y, 1));
        job.pieces.push_back(piece(name + "b", x, 100 - y, 1));
        job.pieces.push_back(piece(name + "c", 100 - x, y + 1, 1));
        job.pieces.push_back(piece(name + "d", 100 - x, 99 - y, 1));
    }
    const Instance instance = instance_of(job);
    Solution alone; // a sheet for each piece
    for (std::int32_t kind = 0; kind < 32; ++kind)
        alone.patterns.push_back({0, 1, leaf_of(instance, kind, false)});
    std::vector<Block> before;
    for (int run = 0; run < 2; ++run) {
        const Options options;
        Meter meter(options, 100'000'000);
        PatternPool pool(instance);
        pool.add(alone);
        Recombining effort{1'000'000'000, 100, 2'000'000'000, 0, 3};
        PatternPool same(instance);
        same.add(alone);
        CHECK_FALSE(recombine(instance, same, 8, effort, meter).solution);
        effort.dive_steps = 20'000'000'000;
        const Recombined found = recombine(instance, pool, 8, effort, meter);
        CHECK(found.bound == 8); // by area
        CHECK(found.all_known);
        REQUIRE(found.solution);
        CHECK(found.solution->complete());
        CHECK(found.solution->cost == 8);
        std::vector<Block> blocks;
        for (const Pattern& pattern : found.solution->patterns) blocks.push_back(pattern.block);
        if (run == 1) CHECK(blocks == before);
        before = blocks;
        // Seven sheets have less area than the pieces.
        const Recombined less = recombine(instance, pool, 7, effort, meter);
        CHECK_FALSE(less.solution);
        CHECK(less.bound == 8);
    }
}
