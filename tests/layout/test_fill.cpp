#include "layout/model/instance.hpp"
#include "layout/sets/set_shapes.hpp"
#include "layout/solve.hpp"

#include "published.hpp"
#include "support.hpp"

#include <catch2/catch.hpp>

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

} // namespace

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
