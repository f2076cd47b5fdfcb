#include "layout/columns/bar_pricing.hpp"
#include "layout/lengths/completion.hpp"
#include "layout/lengths/tight_cover.hpp"
#include "layout/model/instance.hpp"

#include "support.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <functional>

using namespace barrow::layout;
using namespace barrow::layout::test;

namespace {

struct Lengths {
    Job job;
    std::vector<Measure> pieces; ///< one by one, longest first
};

/// Bars cut up at random, hardly anything left over; then some pieces made longer or shorter.
Lengths cut_up(Dice& dice, Measure length, std::int64_t bars) {
    Lengths made;
    for (std::int64_t bar = 0; bar < bars; ++bar) {
        Measure left = length - (dice.chance(30) ? 1 : 0);
        while (left > 0) {
            const Measure piece = std::min(left, dice.roll(5, length / 2));
            made.pieces.push_back(piece);
            left -= piece;
        }
    }
    for (Measure& piece : made.pieces)
        if (piece > 1 && dice.chance(25)) piece += dice.roll(-1, 0) + (dice.chance(40) ? 1 : 0);
    std::sort(made.pieces.rbegin(), made.pieces.rend());
    made.job.one_dimensional = true;
    made.job.stock.push_back(stock("bar", length, 1, 1));
    for (const Measure piece : made.pieces)
        made.job.pieces.push_back(
            test::piece("p" + std::to_string(made.job.pieces.size()), piece, 1, 1));
    return made;
}

/// Piece after piece into bar after bar, equal bars once.
bool fits(const std::vector<Measure>& pieces, Measure length, std::int64_t bars) {
    std::vector<Measure> room(static_cast<std::size_t>(bars), length);
    const std::function<bool(std::size_t)> place = [&](std::size_t next) {
        if (next == pieces.size()) return true;
        for (std::size_t bar = 0; bar < room.size(); ++bar) {
            const auto before = room.begin() + static_cast<std::ptrdiff_t>(bar);
            if (room[bar] < pieces[next]) continue;
            if (std::find(room.begin(), before, room[bar]) != before) continue;
            room[bar] -= pieces[next];
            if (place(next + 1)) return true;
            room[bar] += pieces[next];
        }
        return false;
    };
    return place(0);
}

void check_complete(const Instance& instance, const Solution& solution, std::int64_t bars) {
    std::vector<std::int64_t> counts(instance.items.size(), 0);
    for (const Pattern& pattern : solution.patterns) {
        CHECK(pattern.block.width <= instance.sheets.front().width);
        count_items(pattern.block, counts);
    }
    CHECK(static_cast<std::int64_t>(solution.patterns.size()) <= bars);
    for (std::size_t i = 0; i < counts.size(); ++i) CHECK(counts[i] == instance.items[i].demand);
}

} // namespace

TEST_CASE("bars that must be full are filled, or proven not to suffice, as by trying all",
          "[lengths]") {
    Dice dice(7);
    int possible = 0;
    int impossible = 0;
    for (int round = 0; round < 300; ++round) {
        const std::int64_t bars = dice.roll(2, 4);
        const Lengths made = cut_up(dice, dice.roll(20, 60), bars);
        const Measure length = made.job.stock.front().width;
        const Instance instance = instance_of(made.job);
        if (instance.items.size() < 2) continue;
        std::vector<std::int64_t> prices;
        for (const Item& item : instance.items)
            prices.push_back(dice.chance(50) ? item.width : item.width + dice.roll(-1, 1));
        const Options options;
        Meter meter(options, 1'000'000);
        TightCover cover(instance, prices, meter);
        const auto end = cover.run(bars, 1'000'000'000);
        INFO("round " << round);
        REQUIRE(end != TightCover::End::spent);
        const bool can_be = fits(made.pieces, length, bars);
        CHECK((end == TightCover::End::solved) == can_be);
        auto completed = Completion(instance, meter).run(bars, 1'000'000);
        if (!can_be) CHECK_FALSE(completed);
        if (completed) check_complete(instance, *completed, bars);
        if (end == TightCover::End::solved) check_complete(instance, cover.solution(), bars);
        ++(can_be ? possible : impossible);
    }
    CHECK(possible > 50);
    CHECK(impossible > 30);
}

namespace {

/// The most that a filling of the bar is worth, kind after kind.
std::int64_t best_filling(const Instance& instance, const std::vector<std::int64_t>& prices,
                          const std::vector<std::int64_t>& most) {
    const std::function<std::int64_t(std::size_t, Length)> best = [&](std::size_t kind,
                                                                      Length room) {
        if (kind == prices.size()) return std::int64_t{0};
        std::int64_t found = 0;
        const Length width = instance.items[kind].width;
        for (std::int64_t n = 0; n <= most[kind] && n * width <= room; ++n)
            found = std::max(found, n * prices[kind]
                                        + best(kind + 1, static_cast<Length>(room - n * width)));
        return found;
    };
    return best(0, instance.sheets.front().width);
}

} // namespace

TEST_CASE("the best filling of a bar is worth as much as by trying all", "[lengths]") {
    Dice dice(11);
    int above = 0;
    int below = 0;
    for (int round = 0; round < 400; ++round) {
        Job job;
        job.one_dimensional = true;
        const Measure length = dice.roll(10, 90);
        job.stock.push_back(stock("bar", length, 1, 1));
        for (int kind = 0; kind < 6; ++kind)
            job.pieces.push_back(test::piece("p" + std::to_string(kind),
                                             dice.roll(3, length * 2 / 3 + 3), 1, dice.roll(1, 5)));
        const Instance instance = instance_of(job);
        std::vector<std::int64_t> prices;
        std::vector<std::int64_t> most;
        for (const Item& item : instance.items) {
            // Often nearly as long: the hard ones.
            prices.push_back(dice.chance(60) ? item.width + dice.roll(-1, 1) : dice.roll(0, 60));
            most.push_back(dice.chance(90) ? item.demand : 0);
        }
        const std::int64_t best = best_filling(instance, prices, most);
        const std::int64_t least =
            dice.chance(50) ? 0 : std::max<std::int64_t>(0, best + dice.roll(-9, 9));
        const Grid grid = grid_of(instance, 1000);
        for (const std::size_t most_made : {std::size_t{1'000'000}, std::size_t{4}}) {
            BarPricing pricing(instance, grid, most_made);
            pricing.care_above(least);
            pricing.run(prices, most);
            INFO("round " << round);
            if (best <= least) {
                CHECK(pricing.best(0) <= least);
                ++below;
                continue;
            }
            ++above;
            REQUIRE(pricing.best(0) == best);
            const Block block = pricing.block(0);
            CHECK(block.width <= instance.sheets.front().width);
            std::vector<std::int64_t> counts(instance.items.size(), 0);
            count_items(block, counts);
            std::int64_t worth = 0;
            for (std::size_t i = 0; i < counts.size(); ++i) {
                CHECK(counts[i] <= most[i]);
                worth += counts[i] * prices[i];
            }
            CHECK(worth == best);
        }
    }
    CHECK(above > 100);
    CHECK(below > 100);
}

namespace {

/// Three pieces from each bar with nothing left over, longer than a quarter of it (the hard kind
/// of Falkenauer, J. of Heuristics 2 (1996) 5-30).
Job triplets(Dice& dice, int bars) {
    Job job;
    job.one_dimensional = true;
    job.stock.push_back(stock("bar", 1000, 1, 1));
    for (int bar = 0; bar < bars; ++bar) {
        const Measure first = dice.roll(380, 490);
        const Measure second = dice.roll(250, (1000 - first) / 2);
        for (const Measure length : {first, second, 1000 - first - second})
            job.pieces.push_back(
                test::piece("p" + std::to_string(job.pieces.size()), length, 1, 1));
    }
    return job;
}

} // namespace

TEST_CASE("bars that must all be full are filled with little effort", "[lengths]") {
    Dice dice(3);
    for (int round = 0; round < 4; ++round) {
        const Job job = triplets(dice, 40);
        const Outcome outcome = solve(job);
        INFO("round " << round);
        CHECK(faults(job, outcome).empty());
        CHECK(outcome.status == Status::optimal);
        CHECK(outcome.cost == 40);
        CHECK(outcome.work < 150'000);
    }
}

TEST_CASE("long bars cut into many copies of many lengths come to the bound", "[lengths]") {
    Dice dice(5);
    Job job;
    job.one_dimensional = true;
    job.stock.push_back(stock("bar", 60'000, 1, 1));
    for (int kind = 0; kind < 60; ++kind)
        job.pieces.push_back(test::piece("p" + std::to_string(kind), dice.roll(3'000, 30'000), 1,
                                         dice.roll(1, 100)));
    const Outcome outcome = solve(job);
    CHECK(faults(job, outcome).empty());
    CHECK(outcome.status == Status::optimal);
    CHECK(outcome.bound == outcome.cost);
    CHECK(outcome.work < 500'000);
}
