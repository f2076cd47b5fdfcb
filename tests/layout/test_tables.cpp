#include "layout/table/guillotine_table.hpp"
#include "layout/table/thrifty_table.hpp"

#include "published.hpp"
#include "support.hpp"

#include <catch2/catch.hpp>

using namespace barrow::layout;
using namespace barrow::layout::test;

namespace {

/// One sheet and as many copies of every kind as may lie on it. Half of the jobs value what is
/// cut at its area, so that some sheets are filled without waste.
Instance random_fill(Dice& dice) {
    Job job;
    job.goal = Goal::most_value;
    job.stock.push_back(stock("sheet", dice.roll(20, 60), dice.roll(20, 60), 1));
    const bool by_area = dice.chance(50);
    const Turn turn = dice.chance(50) ? Turn::quarter : Turn::none;
    const std::int64_t kinds = dice.roll(2, 6);
    for (std::int64_t i = 0; i < kinds; ++i) {
        const Measure width = dice.roll(4, 30);
        const Measure height = dice.roll(4, 30);
        const Cost value = width * height + (by_area ? 0 : dice.roll(0, width * height / 3));
        job.pieces.push_back(piece("p" + std::to_string(i), width, height, 500, turn, value));
    }
    return instance_of(job);
}

Cost best_of_all(const Instance& instance, const Grid& grid) {
    GuillotineTable<std::int32_t> table(instance, grid);
    std::vector<std::int32_t> values;
    for (const Item& item : instance.items) values.push_back(static_cast<std::int32_t>(item.value));
    table.run(values);
    return table.best(instance.sheets.front());
}

Cost value_of(const Instance& instance, const Block& block) {
    std::vector<std::int64_t> counts(instance.items.size(), 0);
    count_items(block, counts);
    Cost value = 0;
    for (std::size_t i = 0; i < counts.size(); ++i) value += counts[i] * instance.items[i].value;
    return value;
}

/// Whether a filling of this value wastes at most one `share`-th of the sheet, all counted at the
/// best value for area.
bool within(const Instance& instance, Cost value, std::int64_t share) {
    const Item* best = &instance.items.front();
    for (const Item& item : instance.items)
        if (item.value * best->area() > best->value * item.area()) best = &item;
    const std::int64_t all = best->value * instance.sheets.front().area();
    return all - value * best->area() <= all / share;
}

} // namespace

TEST_CASE("a thrifty table has the best of all fillings that waste no more than allowed",
          "[tables]") {
    Dice dice(5);
    int proven = 0;
    int nothing = 0;
    for (int round = 0; round < 400; ++round) {
        INFO("round " << round);
        const Instance instance = random_fill(dice);
        if (instance.items.empty()) continue;
        const Sheet& sheet = instance.sheets.front();
        const Grid grid = grid_of(instance, 1000);
        REQUIRE(ThriftyParts::suits(instance));
        const Cost best = best_of_all(instance, grid);
        ThriftyTable table(instance, grid);
        for (const std::int64_t share : {1000, 100, 30, 10, 5, 3, 2, 1}) {
            for (const Cost known : {Cost{0}, best - 1, best}) {
                INFO("share " << share << " known " << known);
                const ThriftyTable::Answer answer = table.fill(known, share, INT64_MAX);
                REQUIRE(answer.complete);
                Cost value = known;
                if (answer.block) {
                    value = value_of(instance, *answer.block);
                    CHECK(value > known);
                    CHECK(answer.block->width <= sheet.width);
                    CHECK(answer.block->height <= sheet.height);
                }
                CHECK(value <= best);
                if (within(instance, best, share)) CHECK(value == best);
                if (answer.proven) CHECK(value == best);
                // What would be worth 1 more than the best need not be within the allowance too.
                CHECK(answer.proven == within(instance, value + 1, share));
                (answer.proven ? proven : nothing) += 1;
            }
        }
    }
    CHECK(proven > 1000);
    CHECK(nothing > 1000);
}

TEST_CASE("a thrifty table stops when its steps are spent", "[tables]") {
    Dice dice(6);
    const Instance instance = random_fill(dice);
    const Grid grid = grid_of(instance, 1000);
    ThriftyTable table(instance, grid);
    const ThriftyTable::Answer answer = table.fill(0, 1, 10);
    CHECK(!answer.complete);
    CHECK(!answer.proven);
}

TEST_CASE("values too large to be added in a thrifty table are told before", "[tables]") {
    Job job;
    job.goal = Goal::most_value;
    job.stock.push_back(stock("sheet", 100, 100, 1));
    job.pieces.push_back(piece("p", 7, 5, 1000, Turn::none, 7'000'000));
    CHECK(ThriftyParts::suits(instance_of(job))); // 285 times 7 million is below 2^31
    job.pieces.front().value = 8'000'000;
    CHECK(!ThriftyParts::suits(instance_of(job)));
}
