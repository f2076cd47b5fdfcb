#include "layout/solve.hpp"

#include "support.hpp"

#include <catch2/catch.hpp>

using namespace barrow::layout;
using namespace barrow::layout::test;

// Jobs with too few sheets to spare. Those made by cutting sheets up can be laid out by
// construction, so none of them may be called infeasible.

namespace {

/// Cuts sheets of 297 x 420 edge to edge into so many parts each, with 2 % of each to spare.
Job cut_up(Dice& dice, std::int64_t sheets, std::size_t parts_each) {
    Job job;
    job.stock.push_back(stock("sheet", 297, 420, 1, sheets));
    for (std::int64_t s = 0; s < sheets; ++s) {
        std::vector<std::pair<Measure, Measure>> parts{{297, 411}};
        while (parts.size() < parts_each) {
            auto& part = parts[static_cast<std::size_t>(
                dice.roll(0, static_cast<std::int64_t>(parts.size()) - 1))];
            const bool across = part.first > part.second;
            Measure& side = across ? part.first : part.second;
            if (side < 60) continue;
            auto rest = part;
            const Measure first = dice.roll(25, side - 25);
            (across ? rest.first : rest.second) = side - first;
            side = first;
            parts.push_back(rest);
        }
        for (const auto& [width, height] : parts)
            job.pieces.push_back(piece("p" + std::to_string(job.pieces.size()), width, height, 1));
    }
    return job;
}

Outcome checked(const Job& job, Effort effort) {
    Options options;
    options.effort = effort;
    Outcome outcome = solve(job, options);
    const std::string wrong = faults(job, outcome);
    INFO(wrong);
    REQUIRE(wrong.empty());
    return outcome;
}

} // namespace

TEST_CASE("sheets cut up are never called too few", "[scarce]") {
    Dice dice(2);
    for (int round = 0; round < 40; ++round) {
        const Job job = cut_up(dice, dice.roll(1, 4), static_cast<std::size_t>(dice.roll(4, 14)));
        INFO("round " << round);
        REQUIRE(checked(job, Effort::quick).status != Status::infeasible);
    }
}

TEST_CASE("a limited number of sheets is searched for with all the effort there is", "[scarce]") {
    Dice dice(5);
    int placed = 0;
    for (int round = 0; round < 4; ++round)
        placed += checked(cut_up(dice, 4, 12), Effort::normal).unplaced.empty();
    CHECK(placed >= 3);
}

TEST_CASE("limited sheets of two sizes are searched for together", "[scarce]") {
    // 10 x 10 holds nine of 3 x 3 with a strip of 1; 7 x 4 holds two of 3 x 3 or one of 6 x 4.
    Job job;
    job.stock = {stock("large", 10, 10, 5, 1), stock("small", 7, 4, 2, 1),
                 stock("any number", 3, 3, 1)};
    job.pieces = {piece("square", 5, 5, 3), piece("long", 6, 4, 1), piece("bar", 5, 4, 1),
                  piece("chip", 2, 2, 3)};
    const Outcome outcome = checked(job, Effort::normal);
    CHECK(outcome.unplaced.empty());
    CHECK(outcome.cost == 10);
    CHECK(outcome.status == Status::optimal);
}

TEST_CASE("too few sheets are proven to be too few", "[scarce]") {
    // Of pieces wider and higher than half a sheet, none lie together: 60 of them need 60 sheets,
    // though their area is that of 36.
    Job job;
    job.stock.push_back(stock("sheet", 100, 100, 1, 59));
    for (Measure side = 51; side < 61; ++side)
        job.pieces.push_back(piece("p" + std::to_string(side), side + 20, side, 6, Turn::quarter));
    const Outcome outcome = checked(job, Effort::normal);
    CHECK(outcome.status == Status::infeasible);
    job.stock.front().count = 60;
    CHECK(checked(job, Effort::normal).unplaced.empty());

    // By area: two kinds of sheet with a quarter less than all pieces have.
    Job large;
    large.stock = {stock("a", 100, 100, 1, 20), stock("b", 120, 90, 1, 20)};
    for (Measure side = 20; side < 60; ++side)
        large.pieces.push_back(piece("p" + std::to_string(side), side, side + 3, 8));
    CHECK(checked(large, Effort::quick).status == Status::infeasible);
}
