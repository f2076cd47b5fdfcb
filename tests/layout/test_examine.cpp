#include "layout/solve.hpp"

#include "base/error.hpp"
#include "support.hpp"

#include <catch2/catch.hpp>

#include <functional>

using namespace barrow::layout;
using namespace barrow::layout::test;
using List = JobProblem::List;

namespace {

Job sound_job() {
    Job job;
    job.stock = {stock("new", 305, 305, 85), stock("K7-2", 120, 305, 20, 1)};
    job.pieces = {piece("cover", 165, 210, 4), piece("tag", 60, 110, 20, Turn::quarter)};
    job.useful = {20, 50};
    return job;
}

struct Fault {
    const char* what;
    std::function<void(Job&)> make;
    List list;
    std::size_t index;
    const char* field;
};

const std::vector<Fault> faults_of_jobs = {
    {"no stock", [](Job& j) { j.stock.clear(); }, List::job, 0, "stock"},
    {"no pieces", [](Job& j) { j.pieces.clear(); }, List::job, 0, "pieces"},
    {"negative kerf", [](Job& j) { j.kerf = -1; }, List::job, 0, "kerf"},
    {"kerf beyond reach", [](Job& j) { j.kerf = largest_side; }, List::job, 0, "kerf"},
    {"negative useful", [](Job& j) { j.useful.shorter = -1; }, List::job, 0, "useful.shorter"},
    {"useful upside down",
     [](Job& j) {
         j.useful = {9, 8};
     },
     List::job, 0, "useful.longer"},
    {"zero trimmer", [](Job& j) { j.trimmer = 0; }, List::job, 0, "trimmer"},
    {"zero width", [](Job& j) { j.stock[1].width = 0; }, List::stock, 1, "width"},
    {"negative height", [](Job& j) { j.stock[0].height = -3; }, List::stock, 0, "height"},
    {"huge width", [](Job& j) { j.stock[0].width = largest_side + 1LL; }, List::stock, 0, "width"},
    {"negative cost", [](Job& j) { j.stock[1].cost = -1; }, List::stock, 1, "cost"},
    {"huge cost", [](Job& j) { j.stock[1].cost = INT64_MAX; }, List::stock, 1, "cost"},
    {"fewer than no copies", [](Job& j) { j.stock[1].count = -1; }, List::stock, 1, "count"},
    {"too many copies", [](Job& j) { j.stock[1].count = 10'000'001; }, List::stock, 1, "count"},
    {"negative margin", [](Job& j) { j.stock[0].margin.top = -1; }, List::stock, 0, "margin.top"},
    {"huge margin",
     [](Job& j) { j.stock[1].margin.left = INT64_MAX; },
     List::stock,
     1,
     "margin.left"},
    {"empty id", [](Job& j) { j.stock[1].id.clear(); }, List::stock, 1, "id"},
    {"same stock id", [](Job& j) { j.stock[1].id = "new"; }, List::stock, 1, "id"},
    {"zero piece", [](Job& j) { j.pieces[1].height = 0; }, List::pieces, 1, "height"},
    {"negative piece", [](Job& j) { j.pieces[0].width = -165; }, List::pieces, 0, "width"},
    {"negative count", [](Job& j) { j.pieces[0].count = -1; }, List::pieces, 0, "count"},
    {"no count", [](Job& j) { j.pieces[0].count.reset(); }, List::pieces, 0, "count"},
    {"huge count", [](Job& j) { j.pieces[0].count = 10'000'001; }, List::pieces, 0, "count"},
    {"same piece id", [](Job& j) { j.pieces[1].id = "cover"; }, List::pieces, 1, "id"},
    {"high ribbon", [](Job& j) { j.one_dimensional = true; }, List::stock, 0, "height"},
};

bool names(const std::vector<JobProblem>& problems, const Fault& fault) {
    for (const JobProblem& problem : problems)
        if (problem.list == fault.list && problem.index == fault.index
            && problem.field == fault.field && !problem.what.empty())
            return true;
    return false;
}

} // namespace

TEST_CASE("a sound job is accepted", "[examine]") {
    CHECK(examine(sound_job()).empty());
    CHECK_NOTHROW(solve(sound_job()));
}

TEST_CASE("every kind of bad job is refused with the place named", "[examine]") {
    for (const Fault& fault : faults_of_jobs) {
        INFO(fault.what);
        Job job = sound_job();
        fault.make(job);
        CHECK(names(examine(job), fault));
        CHECK_THROWS_AS(solve(job), barrow::base::Error);
    }
}

TEST_CASE("a choice of pieces needs limits that can be written down", "[examine]") {
    Job job = sound_job();
    job.goal = Goal::most_value;
    job.pieces[0].count.reset();
    CHECK(examine(job).empty());
    job.pieces[0].value = -1;
    CHECK(examine(job).at(0).field == "value");
    job.pieces[0] = piece("dot", 1, 1, {}, Turn::none, 1);
    job.stock[0].width = job.stock[0].height = 100'000;
    CHECK(examine(job).at(0).field == "count");
    job.pieces[0].count = 10'000'000;
    CHECK(examine(job).empty());
    job.pieces[0].value = INT64_MAX / 4;
    CHECK(examine(job).at(0).field == "value");
}

TEST_CASE("sides are judged after the common factor is divided out", "[examine]") {
    // A sheet of 305 mm in units of 1/8000 mm and more: large numbers, small measures.
    Job job = sound_job();
    const Measure unit = 40'000'000'000;
    for (Stock& entry : job.stock) {
        entry.width *= unit;
        entry.height *= unit;
    }
    for (Piece& entry : job.pieces) {
        entry.width *= unit;
        entry.height *= unit;
    }
    job.useful = {20 * unit, 50 * unit};
    CHECK(examine(job).empty());
    const Outcome outcome = solve(job);
    CHECK(faults(job, outcome).empty());
    CHECK(outcome.cost == solve(sound_job()).cost);
    job.pieces[1].width += 1;
    CHECK_FALSE(examine(job).empty());
}

TEST_CASE("a piece that fits no stock makes the answer infeasible, and is named", "[examine]") {
    Job job = sound_job();
    job.pieces.push_back(piece("poster", 400, 200, 2, Turn::quarter));
    const Outcome outcome = solve(job);
    CHECK(outcome.status == Status::infeasible);
    REQUIRE(outcome.unplaced.size() == 1);
    CHECK(outcome.unplaced[0].piece == 2);
    CHECK(outcome.unplaced[0].count == 2);
    CHECK(outcome.unplaced[0].fits_no_stock);
    CHECK(faults(job, outcome).empty());
}

TEST_CASE("entries that come to nothing are as if they were not there", "[examine]") {
    const Job job = sound_job();
    const Outcome plain = solve(job);
    Job more = job;
    more.stock.insert(more.stock.begin(), stock("none left", 500, 500, 1, 0));
    more.stock.insert(more.stock.begin() + 1, stock("all margin", 500, 500, 1));
    more.stock[1].margin.left = 300;
    more.stock[1].margin.right = 200;
    more.pieces.insert(more.pieces.begin(), piece("not wanted", 5000, 10, 0));
    CHECK(examine(more).empty());
    const Outcome outcome = solve(more);
    CHECK(faults(more, outcome).empty());
    CHECK(outcome.cost == plain.cost);
    CHECK(outcome.status == plain.status);

    for (Piece& piece : more.pieces) piece.count = 0;
    const Outcome nothing = solve(more);
    CHECK(faults(more, nothing).empty());
    CHECK(nothing.status == Status::optimal);
    CHECK(nothing.cost == 0);
    CHECK(nothing.plans.empty());

    Job unusable = job;
    for (Stock& entry : unusable.stock) entry.count = 0;
    const Outcome none = solve(unusable);
    CHECK(faults(unusable, none).empty());
    CHECK(none.status == Status::infeasible);

    Job fill = job;
    fill.goal = Goal::most_value;
    fill.stock.front().margin.left = fill.stock.front().width;
    const Outcome empty = solve(fill);
    CHECK(faults(fill, empty).empty());
    CHECK(empty.value == 0);
}
