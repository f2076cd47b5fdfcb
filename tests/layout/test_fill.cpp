#include "layout/fill/label_search.hpp"
#include "layout/fill/label_set.hpp"
#include "layout/fill/strip_search.hpp"
#include "layout/model/instance.hpp"
#include "layout/sets/set_shapes.hpp"
#include "layout/solve.hpp"

#include "published.hpp"
#include "support.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace barrow::layout;
using namespace barrow::layout::test;

namespace {

Job fill_job(const std::vector<Row>& rows, Measure width, Measure height, Turn turn) {
    Job job;
    job.goal = Goal::most_value;
    job.stock.push_back(stock("sheet", width, height, 1));
    for (const Row& row : rows)
        job.pieces.push_back(piece("p" + std::to_string(job.pieces.size()), row.width, row.height,
                                   row.count, turn, row.value));
    return job;
}

void check_proven(const Job& job, Cost value) {
    const Outcome outcome = solve(job);
    CHECK(faults(job, outcome).empty());
    CHECK(outcome.value == value);
    CHECK(outcome.status == Status::optimal);
}

/// Few pieces, so that all sets of them can be looked through, on a sheet that cannot hold all.
Job small_fill(Dice& dice) {
    std::vector<Row> rows;
    const std::int64_t kinds = dice.roll(4, 6);
    for (std::int64_t kind = 0; kind < kinds; ++kind) {
        Row row{dice.roll(3, 14), dice.roll(3, 14), dice.roll(1, 3), 1};
        row.value = row.width * row.height + (dice.chance(50) ? dice.roll(0, 20) : 0);
        rows.push_back(row);
    }
    return fill_job(rows, dice.roll(15, 28), dice.roll(15, 28),
                    dice.chance(50) ? Turn::quarter : Turn::none);
}

Cost value_of(const Instance& instance, const SetShapes& shapes, const SetShapes::Set& set) {
    Cost value = 0;
    for (std::size_t kind = 0; kind < instance.items.size(); ++kind)
        value += shapes.count(set, kind) * instance.items[kind].value;
    return value;
}

/// By prices and labels alone, broken off after so many steps and gone on with after twice as many;
/// answers what they prove.
Cost by_labels(const Instance& instance, Choice& choice, std::int64_t steps, Meter& meter) {
    const Grid grid = grid_of(instance, 1'000);
    GuillotineTable<double> table(instance, grid);
    const CopyPrices prices = find_copy_prices(instance, table, choice, INT64_MAX / 4, meter);
    if (prices.bound <= choice.value()) return prices.bound;
    LabelSearch labels(instance, grid, table, prices, choice, meter);
    Cost bound = prices.bound;
    for (; bound > choice.value() && !meter.over(); steps *= 2) {
        const Cost before = bound;
        bound = labels.run(steps);
        CHECK(bound <= before);
    }
    return bound;
}

} // namespace

TEST_CASE("prices and labels come to the best of all sets, and prove it", "[fill]") {
    Dice dice(11);
    int fewer = 0; // sets, where little may be wasted
    for (int round = 0; round < 80; ++round) {
        INFO("round " << round);
        const Instance instance = instance_of(small_fill(dice));
        const Options options;
        Meter meter(options, 10'000'000);
        SetShapes all(instance);
        REQUIRE(all.enumerate(INT64_MAX / 4, 100'000, meter));
        const SetShapes::Set* best = &all.sets().front();
        for (const SetShapes::Set& set : all.sets())
            if (value_of(instance, all, set) > value_of(instance, all, *best)) best = &set;
        const Cost value = value_of(instance, all, *best);

        Choice choice(instance, meter);
        choice.offer(leaf_of(instance, 0, false));
        const std::int64_t at_once = round % 2 == 0 ? INT64_MAX / 4 : 500;
        const Cost bound = by_labels(instance, choice, at_once, meter);
        CHECK(choice.value() == value);
        CHECK(bound == value);

        // The same set is found when no more may be wasted than it wastes.
        std::int64_t used = 0;
        for (std::size_t kind = 0; kind < instance.items.size(); ++kind)
            used += all.count(*best, kind) * instance.items[kind].area();
        SetShapes thrifty(instance);
        thrifty.waste_at_most(instance.sheets.front().area() - used);
        REQUIRE(thrifty.enumerate(INT64_MAX / 4, 100'000, meter));
        CHECK(thrifty.find(best->key) >= 0);
        fewer += thrifty.sets().size() < all.sets().size() ? 1 : 0;
    }
    CHECK(fewer > 40);
}

TEST_CASE("of contents of one rectangle those stay that none is as good as in all", "[fill]") {
    Dice dice(12);
    // Three kinds, at most three copies of each: fields of three bits, the top one a guard.
    constexpr Packed guards = 0b100100100;
    const auto field = [](Packed counts, int kind) {
        return static_cast<int>(counts >> 3 * kind & 3);
    };
    const auto as_good = [&](const Label& a, const Label& b) {
        for (const int kind : {0, 1, 2})
            if (field(a.counts, kind) > field(b.counts, kind)) return false;
        return a.worth >= b.worth;
    };
    LabelSet set; // one for all rounds, as the search uses it
    for (int round = 0; round < 200; ++round) {
        std::vector<Label> all;
        for (std::int64_t n = dice.roll(0, 60); n > 0; --n) {
            Label label;
            for (const int kind : {0, 1, 2})
                label.counts |= static_cast<Packed>(dice.roll(0, 3)) << 3 * kind;
            label.worth = dice.roll(0, 40);
            label.reduced = label.worth - 5 * field(label.counts, 1);
            label.first = static_cast<std::int32_t>(all.size());
            all.push_back(label);
            set.add(label);
        }
        const std::vector<Label> best = set.take_best(guards);
        for (std::size_t i = 1; i < best.size(); ++i) CHECK(best[i - 1].reduced >= best[i].reduced);
        for (const Label& label : all) {
            const auto covering = std::count_if(best.begin(), best.end(), [&](const Label& other) {
                return as_good(other, label);
            });
            const auto itself = std::count_if(best.begin(), best.end(), [&](const Label& other) {
                return other.first == label.first;
            });
            CHECK(covering >= 1);
            if (itself == 1) CHECK(covering == 1);
        }
    }
    CHECK(set.take_best(guards).empty());
}

TEST_CASE("parts off a sheet are counted, waste as little as asked, and can be cut", "[fill]") {
    Dice dice(13);
    for (int round = 0; round < 40; ++round) {
        INFO("round " << round);
        const Instance instance = instance_of(small_fill(dice));
        const auto counts = PackedCounts::of(instance);
        REQUIRE(counts);
        REQUIRE(CountedParts::suits(instance));
        CountedParts parts(instance, *counts);
        const Options options;
        Meter meter(options, 10'000'000);
        const std::int64_t share = dice.roll(3, 20);
        REQUIRE(parts.find(share, 100'000, INT64_MAX, meter));
        const Sheet& sheet = instance.sheets.front();
        for (std::size_t i = 0; i < parts.parts().size(); ++i) {
            const CountedParts::Part& part = parts.parts()[i];
            const Block block = parts.block(static_cast<std::int32_t>(i));
            CHECK(block.width == part.width);
            CHECK(block.height == part.height);
            CHECK(part.width <= sheet.width);
            CHECK(part.height <= sheet.height);
            std::vector<std::int64_t> held(instance.items.size(), 0);
            count_items(block, held);
            Cost value = 0;
            Packed all = 0;
            for (std::size_t kind = 0; kind < held.size(); ++kind) {
                CHECK(held[kind] <= instance.items[kind].demand);
                value += held[kind] * instance.items[kind].value;
                all += static_cast<Packed>(held[kind]) * counts->one(kind);
            }
            CHECK(value == part.value);
            CHECK((all == part.counts));
            CHECK(parts.waste(block.area(), value) <= parts.waste(sheet.area(), 0) / share);
        }
    }
}

TEST_CASE("cutting strips off comes to the best of all sets where parts may waste all", "[fill]") {
    Dice dice(14);
    for (int round = 0; round < 40; ++round) {
        INFO("round " << round);
        const Instance instance = instance_of(small_fill(dice));
        const Options options;
        Meter meter(options, 100'000'000);
        SetShapes all(instance);
        REQUIRE(all.enumerate(INT64_MAX / 4, 100'000, meter));
        Cost best = 0;
        for (const SetShapes::Set& set : all.sets())
            best = std::max(best, value_of(instance, all, set));
        Choice choice(instance, meter);
        choice.offer(leaf_of(instance, 0, false));
        StripSearch(instance, choice, meter).run(meter.left(), best);
        CHECK(choice.value() == best);
    }
}

TEST_CASE("copies that need more than 128 bits to be counted are left to other searches",
          "[fill]") {
    std::vector<Row> rows;
    for (std::int64_t i = 0; i < 40; ++i) rows.push_back({3 + i, 50 - i, 9, 10});
    const Instance instance = instance_of(fill_job(rows, 90, 90, Turn::none));
    CHECK(!PackedCounts::of(instance));
    const Options options;
    Meter meter(options, 1'000);
    Choice choice(instance, meter);
    StripSearch(instance, choice, meter).run(1'000'000, 1'000'000);
    CHECK(choice.value() == 0);
}

TEST_CASE("what fills a sheet to the last corner is found and proven", "[fill]") {
    check_proven(fill_job(hchl8s, 49, 20, Turn::none), 911);
    // 974 is what all pieces are worth: no choice can be worth more.
    check_proven(fill_job(hchl8s, 49, 20, Turn::quarter), 974);
}

TEST_CASE("a set that wastes nothing is found though a part of it wastes much", "[fill]") {
    // The first and the third make a strip of 5 x 10 beside the second; the first and the second
    // alone waste 20 of 100.
    Job job = fill_job({{5, 6, 1, 1}, {5, 10, 1, 1}, {5, 4, 1, 1}}, 10, 10, Turn::none);
    const Instance instance = instance_of(job);
    REQUIRE(instance.items.size() == 3);
    SetShapes shapes(instance);
    shapes.waste_at_most(0);
    const Options options;
    Meter meter(options, 1000);
    REQUIRE(shapes.enumerate(1'000'000, 100, meter));
    CHECK(shapes.find(shapes.unit(0) + shapes.unit(1)) < 0);
    CHECK(shapes.find(shapes.unit(0) + shapes.unit(1) + shapes.unit(2)) >= 0);
}

TEST_CASE("filling a sheet ends when told to, soon and with a valid plan", "[fill]") {
    const Job job = fill_job(hchl8s, 49, 20, Turn::none);
    Options options;
    std::vector<std::int64_t> heard;
    options.progress = [&](const Progress& progress) {
        heard.push_back(progress.work);
        return progress.work < 100'000;
    };
    const Outcome outcome = solve(job, options);
    CHECK(outcome.stopped_early);
    CHECK(faults(job, outcome).empty());
    CHECK(outcome.bound >= 911);
    REQUIRE(heard.size() >= 3);
    for (std::size_t i = 1; i < heard.size(); ++i) CHECK(heard[i] - heard[i - 1] < 30'000);
    CHECK(outcome.work < 130'000);

    options.progress = {};
    options.most_work = 20'000;
    CHECK(solve(job, options).work < 50'000);
}
