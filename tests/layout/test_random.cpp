#include "layout/bound/conservative_scales.hpp"
#include "layout/effort/random.hpp"
#include "layout/solve.hpp"

#include "brute_force.hpp"
#include "support.hpp"

#include <catch2/catch.hpp>

using namespace barrow::layout;
using namespace barrow::layout::test;

namespace {

/// Cost of an answer that must be the best; nothing when not all could be placed.
std::optional<Cost> cost_of(const Job& job) {
    const Outcome outcome = solve(job);
    if (!outcome.unplaced.empty()) return {};
    REQUIRE(outcome.status == Status::optimal);
    return outcome.cost;
}

} // namespace

// Numbers of splitmix64 from seed 1234567 that are commonly given with its reference implementation
// (S. Vigna, public domain): from memory, and worked out anew from the definition in Python.
TEST_CASE("the generator gives the numbers that its definition says", "[random]") {
    Random random(1234567);
    CHECK(random.bits() == 6457827717110365317U);
    CHECK(random.bits() == 3203168211198807973U);
    CHECK(random.bits() == 9817491932198370423U);
    CHECK(random.bits() == 4593380528125082431U);
    CHECK(random.bits() == 16408922859458223821U);
}

TEST_CASE("the checker accepts what the search answers to thousands of jobs", "[random]") {
    Dice dice(20240701);
    for (int round = 0; round < 3000; ++round) {
        const Job job = random_job(dice, round % 3 == 0 ? Goal::most_value : Goal::least_cost);
        if (!examine(job).empty()) continue;
        const Outcome outcome = solve(job);
        const std::string wrong = faults(job, outcome);
        INFO("round " << round << "\n" << wrong);
        REQUIRE(wrong.empty());
    }
}

// Brute force over all guillotine cut trees (brute_force.hpp) is the other opinion.
TEST_CASE("small jobs cost what brute force finds, and are proven", "[random]") {
    Dice dice(7);
    for (int round = 0; round < 1200; ++round) {
        const Job job = random_job(dice, Goal::least_cost);
        if (!examine(job).empty()) continue;
        INFO("round " << round);
        const Outcome outcome = solve(job);
        const auto expected = BruteForce(job).least_cost();
        REQUIRE((outcome.status != Status::infeasible) == expected.has_value());
        if (!expected) continue;
        REQUIRE(outcome.cost == *expected);
        REQUIRE(outcome.status == Status::optimal);
    }
}

TEST_CASE("small sheets are filled as well as brute force can, and proven", "[random]") {
    Dice dice(11);
    for (int round = 0; round < 800; ++round) {
        const Job job = random_job(dice, Goal::most_value);
        if (!examine(job).empty()) continue;
        INFO("round " << round);
        const Outcome outcome = solve(job);
        REQUIRE(outcome.value == BruteForce(job).most_value());
        REQUIRE(outcome.status == Status::optimal);
    }
}

TEST_CASE("more stock or less demand never costs more", "[random]") {
    Dice dice(13);
    for (int round = 0; round < 500; ++round) {
        const Job job = random_job(dice, Goal::least_cost);
        if (!examine(job).empty()) continue;
        const auto cost = cost_of(job);
        if (!cost) continue;
        INFO("round " << round);
        Job richer = job;
        richer.stock.push_back(stock("more", dice.roll(4, 12), job.stock.front().height,
                                     dice.roll(0, 20), dice.roll(1, 3)));
        if (examine(richer).empty()) REQUIRE(cost_of(richer).value() <= *cost);
        Job less = job;
        if (--*less.pieces.front().count == 0) continue;
        REQUIRE(cost_of(less).value() <= *cost);
    }
}

// By definition (Fekete & Schepers 2004): lengths that fit beside each other still do when measured
// anew.
TEST_CASE("a scale never makes lengths that fit a side too long for it", "[random]") {
    Dice dice(4);
    for (int round = 0; round < 20000; ++round) {
        const auto side = static_cast<Length>(dice.roll(2, 60));
        Scale scale{static_cast<Scale::Kind>(dice.roll(0, 3)), 0, side};
        scale.k = dice.roll(1, scale.kind == Scale::Kind::parts ? 9 : side / 2);
        std::int64_t sum = 0;
        for (Length left = side; left > 0;) {
            const auto length = static_cast<Length>(dice.roll(1, left));
            sum += scale.of(length);
            left -= length;
        }
        CAPTURE(side, scale.k, static_cast<int>(scale.kind));
        REQUIRE(sum <= scale.whole());
        REQUIRE(scale.of(side) == scale.whole());
    }
}

TEST_CASE("pieces over half a sheet need one each, which areas alone do not say", "[random]") {
    std::int64_t steps = 0;
    Job job;
    job.stock = {stock("sheet", 10, 10, 3)};
    job.pieces = {piece("p", 6, 6, 5)};
    CHECK(scaled_area_bound(instance_of(job), steps) == 15);
    job.pieces = {piece("p", 6, 4, 7, Turn::quarter)}; // four a sheet, round a waste in the middle
    CHECK(scaled_area_bound(instance_of(job), steps) <= 2 * 3);
    job.pieces = {piece("p", 6, 6, 5, Turn::quarter), piece("long", 10, 2, 5)};
    CHECK(scaled_area_bound(instance_of(job), steps) == 15);
}
