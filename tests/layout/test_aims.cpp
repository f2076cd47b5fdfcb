#include "layout/finish/small_offcuts.hpp"
#include "layout/rounding/recombination.hpp"
#include "layout/solve.hpp"

#include "support.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <numeric>
#include <string>
#include <vector>

using namespace barrow::layout;
using namespace barrow::layout::test;

namespace {

Stock offcut(const std::string& id, Measure width, Measure height, Cost cost, std::int64_t age) {
    Stock entry = stock(id, width, height, cost, 1);
    entry.offcut = true;
    entry.age = age;
    return entry;
}

/// Ids of the stock used, in the order of the plans.
std::string used(const Job& job) {
    const Outcome outcome = solve(job);
    INFO(faults(job, outcome));
    REQUIRE(faults(job, outcome).empty());
    REQUIRE(outcome.status == Status::optimal);
    std::string text;
    for (const Plan& plan : outcome.plans) text += job.stock[plan.stock].id + " ";
    return text;
}

using Sums = std::array<std::int64_t, 4>; // cost, area, age, places in the list

/// What blocks on offcuts cost and take, or nothing when one does not fit.
std::optional<Sums> sums_of(const Instance& instance, const std::vector<Pattern>& patterns,
                            const std::vector<std::size_t>& sheets) {
    Sums sums{};
    for (std::size_t i = 0; i < patterns.size(); ++i) {
        const Sheet& sheet = instance.sheets[sheets[i]];
        if (patterns[i].block.width > sheet.width || patterns[i].block.height > sheet.height)
            return {};
        sums[0] += sheet.cost;
        sums[1] += sheet.true_area;
        sums[2] -= sheet.age;
        sums[3] += static_cast<std::int64_t>(sheets[i]);
    }
    return sums;
}

} // namespace

TEST_CASE("among equal costs the smaller offcut is used, then the older, then the first",
          "[aims]") {
    Job job;
    job.pieces = {piece("p", 4, 3, 1)};
    job.stock = {offcut("large", 9, 9, 5, 400), offcut("small", 5, 4, 5, 1),
                 offcut("dear", 4, 3, 6, 900)};
    CHECK(used(job) == "small ");
    job.stock[0] = offcut("older", 4, 5, 5, 2);
    CHECK(used(job) == "older ");
    job.stock[0] = offcut("alike", 4, 5, 5, 1);
    CHECK(used(job) == "alike ");
}

TEST_CASE("a chain of changes frees the large offcut", "[aims]") {
    Job job;
    job.pieces = {piece("wide", 8, 2, 1), piece("flat", 4, 2, 1)};
    job.stock = {offcut("a", 9, 3, 3, 0), offcut("b", 8, 2, 3, 0), offcut("c", 4, 2, 3, 0)};
    CHECK(used(job) == "b c ");
}

// Against every way of giving the offcuts to the blocks.
TEST_CASE("offcuts are given to cut trees as well as can be", "[aims]") {
    Dice dice(5);
    for (int round = 0; round < 400; ++round) {
        Instance instance;
        const std::int64_t count = dice.roll(1, 6);
        for (std::int64_t i = 0; i < count; ++i) {
            Sheet sheet;
            sheet.width = static_cast<Length>(dice.roll(1, 5));
            sheet.height = static_cast<Length>(dice.roll(1, 5));
            sheet.cost = dice.roll(0, 2);
            sheet.true_area = sheet.area();
            sheet.copies = 1;
            sheet.offcut = true;
            sheet.age = dice.roll(0, 2);
            instance.sheets.push_back(sheet);
        }
        std::vector<std::size_t> order(instance.sheets.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        std::vector<Pattern> patterns;
        for (std::int64_t i = dice.roll(1, count); i > 0; --i) {
            Block block;
            const std::size_t sheet = patterns.size();
            block.width = static_cast<Length>(dice.roll(1, instance.sheets[sheet].width));
            block.height = static_cast<Length>(dice.roll(1, instance.sheets[sheet].height));
            block.item = 0;
            patterns.push_back({sheet, 1, block});
        }
        const Sums before = *sums_of(instance, patterns, order);
        Sums best = before;
        std::vector<std::size_t> ways = order;
        do {
            if (const auto sums = sums_of(instance, patterns, ways)) best = std::min(best, *sums);
        } while (std::next_permutation(ways.begin(), ways.end()));
        const Options options;
        Meter meter(options, 1'000'000);
        const Cost saved = prefer_small_offcuts(instance, patterns, Ties::by_kind, meter);
        std::vector<std::size_t> given;
        for (const Pattern& pattern : patterns) given.push_back(pattern.sheet);
        INFO("round " << round);
        REQUIRE(sums_of(instance, patterns, given) == best);
        REQUIRE(saved == before[0] - best[0]);
        std::sort(given.begin(), given.end());
        REQUIRE(std::adjacent_find(given.begin(), given.end()) == given.end());
    }
}

// Worked out by hand: two squares' halves lying and two standing fill two squares of 10 x 10. Each
// of the answers put in wastes one square's worth.
TEST_CASE("what two answers saw is put together into a cheaper third", "[aims]") {
    Job job;
    job.stock = {stock("square", 10, 10, 10), stock("half", 5, 10, 6)};
    job.pieces = {piece("standing", 5, 10, 2), piece("lying", 10, 5, 2)};
    const Instance instance = instance_of(job);
    const auto pair = [&](std::int32_t item, Along axis) {
        return joined(axis, leaf_of(instance, item, false), leaf_of(instance, item, false));
    };
    const std::int32_t standing = instance.items[0].sources[0].index == 0 ? 0 : 1;
    const std::int32_t lying = 1 - standing;
    const std::size_t square = instance.sheets[0].cost == 10 ? 0 : 1;
    const std::size_t half = 1 - square;
    Solution first; // a square of two standing, two squares with one lying each
    first.patterns = {{square, 1, pair(standing, Along::x)},
                      {square, 2, leaf_of(instance, lying, false)}};
    Solution second; // a square of two lying, a half for each standing
    second.patterns = {{square, 1, pair(lying, Along::y)},
                       {half, 2, leaf_of(instance, standing, false)}};
    PatternPool pool(instance);
    pool.add(first);
    pool.add(second);
    CHECK(pool.entries().size() == 4);
    const Options options;
    Meter meter(options, 1'000'000);
    const auto third = recombine(instance, pool, 21, {1'000'000'000, 100}, meter).solution;
    REQUIRE(third);
    CHECK(third->complete());
    CHECK(third->cost == 20);
    CHECK(meter.work() > 0);
    CHECK_FALSE(recombine(instance, pool, 19, {1'000'000'000, 100}, meter).solution);
    // Nothing in the pool can be part of an answer that cheap.
    CHECK(pool.entries().size() <= 4);
}

TEST_CASE("two answers on sheets of one kind make a third with a sheet less", "[aims]") {
    Job job;
    job.stock = {stock("square", 10, 10, 10)};
    job.pieces = {piece("standing", 5, 10, 2), piece("lying", 10, 5, 2)};
    const Instance instance = instance_of(job);
    const std::int32_t standing = instance.items[0].sources[0].index == 0 ? 0 : 1;
    PatternPool pool(instance);
    for (const std::int32_t together : {standing, 1 - standing}) {
        const Block one = leaf_of(instance, together, false);
        Solution answer; // two of these on one sheet, the others on one each
        answer.patterns = {{0, 1, joined(together == standing ? Along::x : Along::y, one, one)},
                           {0, 2, leaf_of(instance, 1 - together, false)}};
        pool.add(answer);
    }
    const Options options;
    Meter meter(options, 1'000'000);
    const auto third = recombine(instance, pool, 20, {1'000'000'000, 100}, meter).solution;
    REQUIRE(third);
    CHECK(third->complete());
    CHECK(third->cost == 20);
}

TEST_CASE("a full pool forgets what costs most beyond what it saves", "[aims]") {
    // All threes of 48 pieces, each on a sheet: 17,296 patterns, and 16 sheets are needed.
    Job job;
    job.stock = {stock("strip", 200, 1, 1)};
    for (int width = 1; width <= 48; ++width)
        job.pieces.push_back(piece("wide" + std::to_string(width), width, 1, 1));
    const Instance instance = instance_of(job);
    Solution threes;
    const auto leaf = [&](std::int32_t item) { return leaf_of(instance, item, false); };
    for (std::int32_t a = 0; a < 48; ++a)
        for (std::int32_t b = 0; b < a; ++b)
            for (std::int32_t c = 0; c < b; ++c)
                threes.patterns.push_back(
                    {0, 1, joined(Along::x, joined(Along::x, leaf(a), leaf(b)), leaf(c))});
    PatternPool pool(instance);
    pool.add(threes);
    CHECK(pool.entries().size() == 17'296);
    const Options options;
    Meter meter(options, 10'000'000);
    CHECK_FALSE(recombine(instance, pool, 15, {1'000'000'000, 10}, meter).solution);
    CHECK(pool.entries().size() == 15'000);
    // What the linear program used is still there: each piece is on some sheet.
    std::vector<bool> held(48, false);
    for (const PatternPool::Entry& entry : pool.entries())
        for (const auto& [kind, count] : entry.counts) held[kind] = held[kind] || count > 0;
    CHECK(std::all_of(held.begin(), held.end(), [](bool h) { return h; }));
}

TEST_CASE("with many offcuts an answer within a hundredth of the bound is soon found", "[aims]") {
    // 112,000 to 166,000 before the dives that aim for it.
    for (const std::uint64_t seed : {1U, 2U, 3U}) {
        Dice dice(seed);
        Job job;
        job.stock = {stock("square", 305, 305, 85), stock("sheet", 210, 297, 45),
                     stock("large", 297, 420, 95)};
        for (int i = 0; i < 60; ++i) {
            const Measure width = dice.roll(40, 300);
            const Measure height = dice.roll(60, 300);
            job.stock.push_back(offcut("o" + std::to_string(i), width, height,
                                       85 * width * height / (305 * 305), dice.roll(0, 400)));
        }
        for (int kind = 0; kind < 12; ++kind) {
            const bool large = kind % 4 == 0;
            job.pieces.push_back(piece(
                "p" + std::to_string(kind), large ? dice.roll(120, 200) : dice.roll(30, 110),
                large ? dice.roll(150, 250) : dice.roll(40, 160),
                13 * (large ? 1 : dice.roll(1, 6)), kind % 3 == 1 ? Turn::quarter : Turn::none));
        }
        const Outcome outcome = solve(job);
        INFO(faults(job, outcome));
        CHECK(faults(job, outcome).empty());
        CHECK(outcome.unplaced.empty());
        CHECK((outcome.cost - outcome.bound) * 100 <= outcome.cost);
        CHECK(outcome.work <= 100'000);
    }
}

TEST_CASE("sheets that cost nothing are no reason to fail", "[aims]") {
    // A group of sheets whose cost is 0 cannot be made cheaper; that once ended the program.
    Job job;
    job.kerf = 1;
    job.stock.push_back(stock("sheet", 200, 150, 40));
    job.stock.push_back(stock("dear", 210, 297, 90));
    Dice dice(31);
    for (int i = 0; i < 60; ++i) {
        Stock entry = stock("o" + std::to_string(i), dice.roll(40, 180), dice.roll(40, 140),
                            dice.roll(0, 3) / 3, 1);
        entry.offcut = true;
        job.stock.push_back(entry);
    }
    for (int i = 0; i < 12; ++i)
        job.pieces.push_back(piece("p" + std::to_string(i), dice.roll(20, 120), dice.roll(20, 90),
                                   dice.roll(1, 12), i % 2 == 0 ? Turn::quarter : Turn::none));
    const Outcome outcome = solve(job, {Effort::quick});
    CHECK(outcome.unplaced.empty());
    CHECK(faults(job, outcome).empty());
}

TEST_CASE("the order of entries does not change the cost", "[aims]") {
    Dice dice(4);
    const auto shuffle = [&](auto& entries) {
        for (std::size_t i = entries.size(); i > 1; --i)
            std::swap(
                entries[i - 1],
                entries[static_cast<std::size_t>(dice.roll(0, static_cast<std::int64_t>(i) - 1))]);
    };
    for (int round = 0; round < 60; ++round) {
        Job job = random_job(dice, Goal::least_cost);
        for (int more = 0; more < 3; ++more) { // larger than brute force could do
            Job another = random_job(dice, Goal::least_cost);
            if (another.one_dimensional != job.one_dimensional) continue;
            for (Piece& entry : another.pieces) {
                entry.id += "+" + std::to_string(more);
                job.pieces.push_back(entry);
            }
        }
        if (!examine(job).empty()) continue;
        const Outcome first = solve(job, {Effort::quick});
        for (int times = 0; times < 5; ++times) {
            shuffle(job.stock);
            shuffle(job.pieces);
            const Outcome again = solve(job, {Effort::quick});
            INFO("round " << round);
            CHECK(again.cost == first.cost);
            CHECK(again.bound == first.bound);
            CHECK(again.status == first.status);
        }
    }
}

TEST_CASE("the bound knows which sheets a piece needs", "[aims]") {
    // Two pieces of 741 x 71 fit side by side on nothing but the long strip, one on each.
    Job job;
    job.stock.push_back(stock("sheet", 305, 305, 71));
    job.stock.push_back(stock("strip", 750, 80, 204));
    job.pieces.push_back(piece("spine", 741, 71, 2));
    job.pieces.push_back(piece("page", 100, 120, 5));
    const Outcome outcome = solve(job, {Effort::quick});
    CHECK(outcome.cost == 2 * 204 + 71);
    CHECK(outcome.bound >= 2 * 204);
    CHECK(faults(job, outcome).empty());
}
