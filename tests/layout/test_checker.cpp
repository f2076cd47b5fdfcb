#include "layout/checker.hpp"
#include "layout/solve.hpp"

#include "support.hpp"

#include <catch2/catch.hpp>

#include <functional>

using namespace barrow::layout;
using namespace barrow::layout::test;

namespace {

/// One sheet of 10 x 8 with a margin of 1 below, kerf 1: two pieces of 4 x 3 beside each other,
/// one of 3 x 4 turned on its side above the first, and what remains.
Job hand_made_job() {
    Job job;
    job.kerf = 1;
    job.stock = {stock("s", 10, 8, 7, 2)};
    job.stock[0].margin.bottom = 1;
    job.pieces = {piece("a", 4, 3, 2), piece("b", 3, 4, 1, Turn::quarter)};
    job.useful = {2, 3};
    job.trimmer = 8;
    return job;
}

Outcome hand_made_outcome() {
    Plan plan;
    plan.pieces = {{0, {0, 1, 4, 3}, false}, {0, {5, 1, 4, 3}, false}, {1, {0, 5, 4, 3}, true}};
    using Axis = Cut::Axis;
    plan.cuts = {{Axis::y, 4, 0, 10, 3, true},
                 {Axis::x, 4, 1, 4, 4, false},
                 {Axis::x, 9, 1, 4, 4, false},
                 {Axis::x, 4, 5, 8, 4, false}};
    plan.offcuts = {{5, 5, 5, 3}};
    Outcome outcome;
    outcome.status = Status::feasible;
    outcome.cost = 7;
    outcome.bound = 5;
    outcome.sheets = 1;
    outcome.plans = {plan};
    return outcome;
}

struct Breach {
    const char* what;
    std::function<void(Outcome&)> make;
};

Plan& plan(Outcome& outcome) {
    return outcome.plans[0];
}

const std::vector<Breach> breaches = {
    {"no such stock", [](Outcome& o) { plan(o).stock = 1; }},
    {"no copies", [](Outcome& o) { plan(o).copies = 0; }},
    {"more than on hand", [](Outcome& o) { plan(o).copies = 3; }},
    {"twice the demand", [](Outcome& o) { plan(o).copies = 2; }},
    {"no such piece", [](Outcome& o) { plan(o).pieces[0].piece = 2; }},
    {"another size", [](Outcome& o) { plan(o).pieces[0].piece = 1; }},
    {"turned against the grain", [](Outcome& o) { plan(o).pieces[0].turned = true; }},
    {"turned but not told", [](Outcome& o) { plan(o).pieces[2].turned = false; }},
    {"in the margin", [](Outcome& o) { plan(o).pieces[0].place.y = 0; }},
    {"in the kerf", [](Outcome& o) { plan(o).pieces[1].place.x = 4; }},
    {"one upon another", [](Outcome& o) { plan(o).pieces[1].place.x = 0; }},
    {"outside", [](Outcome& o) { plan(o).pieces[1].place.x = 7; }},
    {"piece forgotten", [](Outcome& o) { plan(o).pieces.pop_back(); }},
    {"cut forgotten", [](Outcome& o) { plan(o).cuts.pop_back(); }},
    {"cut made twice", [](Outcome& o) { plan(o).cuts.push_back(plan(o).cuts[3]); }},
    {"cut before its part exists", [](Outcome& o) { std::swap(plan(o).cuts[0], plan(o).cuts[1]); }},
    {"cut not to the edge", [](Outcome& o) { plan(o).cuts[1].to = 3; }},
    {"cut from the margin", [](Outcome& o) { plan(o).cuts[1].from = 0; }},
    {"cut along the other axis", [](Outcome& o) { plan(o).cuts[3].axis = Cut::Axis::y; }},
    {"cut elsewhere", [](Outcome& o) { plan(o).cuts[3].at = 5; }},
    {"stop misread", [](Outcome& o) { plan(o).cuts[2].stop = 5; }},
    {"trimmer not thought of", [](Outcome& o) { plan(o).cuts[0].beyond_trimmer = false; }},
    {"trimmer thought too short", [](Outcome& o) { plan(o).cuts[1].beyond_trimmer = true; }},
    {"offcut forgotten", [](Outcome& o) { plan(o).offcuts.clear(); }},
    {"offcut of another size", [](Outcome& o) { plan(o).offcuts[0].width = 4; }},
    {"offcut listed twice",
     [](Outcome& o) {
         plan(o).offcuts.push_back({5, 5, 5, 3});
     }},
    {"cost", [](Outcome& o) { o.cost = 8; }},
    {"sheets", [](Outcome& o) { o.sheets = 2; }},
    {"bound above cost", [](Outcome& o) { o.bound = 8; }},
    {"called optimal", [](Outcome& o) { o.status = Status::optimal; }},
    {"optimal but not called so", [](Outcome& o) { o.bound = 7; }},
    {"called infeasible", [](Outcome& o) { o.status = Status::infeasible; }},
    {"unplaced besides",
     [](Outcome& o) {
         o.unplaced = {{0, 1, false}};
     }},
};

} // namespace

TEST_CASE("the checker accepts a plan made by hand", "[checker]") {
    CHECK(faults(hand_made_job(), hand_made_outcome()).empty());
}

TEST_CASE("the checker finds every breach of the contract", "[checker]") {
    for (const Breach& breach : breaches) {
        INFO(breach.what);
        Outcome outcome = hand_made_outcome();
        breach.make(outcome);
        CHECK_FALSE(check(hand_made_job(), outcome).empty());
    }
}

TEST_CASE("a piece that keeps its direction must not lie turned, though it fits", "[checker]") {
    for (const Turn turn : {Turn::none, Turn::half}) {
        Job job = hand_made_job();
        job.pieces[1].turn = turn;
        CHECK_FALSE(check(job, hand_made_outcome()).empty());
    }
}

TEST_CASE("the checker accepts a stop at either edge", "[checker]") {
    Outcome outcome = hand_made_outcome();
    plan(outcome).cuts[3].stop = 5; // from the right edge: 10 - 4 - 1
    CHECK(faults(hand_made_job(), outcome).empty());
}

TEST_CASE("the checker finds wrong choices of pieces", "[checker]") {
    Job job = hand_made_job();
    job.goal = Goal::most_value;
    job.pieces[0].value = 5;
    job.pieces[1].value = 3;
    Outcome outcome = hand_made_outcome();
    outcome.value = 13;
    outcome.bound = 14;
    CHECK(faults(job, outcome).empty());
    outcome.value = 12;
    CHECK_FALSE(check(job, outcome).empty());
    outcome.value = 13;
    outcome.bound = 12;
    CHECK_FALSE(check(job, outcome).empty());
    outcome.bound = 14;
    job.pieces[0].count = 1;
    CHECK_FALSE(check(job, outcome).empty());
}

TEST_CASE("the checker wants unplaced pieces told truly", "[checker]") {
    Job job = hand_made_job();
    job.pieces[0].count = 3;
    Outcome outcome = hand_made_outcome();
    CHECK_FALSE(check(job, outcome).empty());
    outcome.unplaced = {{0, 1, false}};
    outcome.status = Status::infeasible;
    CHECK(faults(job, outcome).empty());
    outcome.unplaced[0].fits_no_stock = true;
    CHECK_FALSE(check(job, outcome).empty());
}
