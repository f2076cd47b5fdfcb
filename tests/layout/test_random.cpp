#include "layout/solve.hpp"

#include "support.hpp"

#include <catch2/catch.hpp>

using namespace barrow::layout;
using namespace barrow::layout::test;

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
