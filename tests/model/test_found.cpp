// Histories that once went wrong, made as short as they would go and kept. World::take fails them
// by throwing when the shop and the naive book differ.

#include "model/supplies.hpp"
#include "model/world.hpp"

#include <catch2/catch.hpp>

using model::Do;
using model::Step;
using model::World;

namespace {

/// Six units (thirty tags) of a material, dearer with a higher `price`. World says what the numbers
/// of each step mean.
Step receive(model::Count material, int price = 1) {
    return {Do::receive, {static_cast<int>(material - 1) * 4 + 1, 29, 0, price}};
}

const Step plan_leaf{Do::plan, {0, 0, 0, 1}};
const Step cut{Do::cut, {0, 1, 1, 1}};
const Step finish{Do::finish, {0, 1, 0, 0}};
const Step abandon_cut{Do::abandon, {0, 0, 0, 0}};
const Step abandon_planned{Do::abandon, {0, 0, 0, 1}};

/// Takes back the latest entry, or one before it.
Step reverse(int before_the_latest = 0) {
    return {Do::reverse, {before_the_latest, 1, 0, 0}};
}

void lead(World& world, const std::vector<Step>& steps) {
    for (const Step& step : steps) world.take(step);
    world.look_back(0);
}

std::vector<Step> stocked(std::vector<Step> then) {
    std::vector<Step> steps = {receive(model::paper), receive(model::tag), receive(model::glue)};
    steps.insert(steps.end(), then.begin(), then.end());
    return steps;
}

} // namespace

TEST_CASE("a cut taken back does not come back once the batch was abandoned") {
    World world;
    lead(world, stocked({plan_leaf, cut, reverse(), abandon_planned, reverse(1)}));
    CHECK(world.book().status(1) == "abandoned");
}

TEST_CASE("what was found beside a batch in work cannot go back into it once it is finished") {
    World world;
    lead(world, stocked({plan_leaf, cut, {Do::find, {0, 0, 0, 0}}, finish, reverse(1)}));
    CHECK(world.book().status(1) == "finished");
}

TEST_CASE("a material the batch does not use is not spoiled for it") {
    World world;
    lead(world, stocked({receive(model::board), plan_leaf, {Do::cut, {0, 4, 1, 1}}}));
    CHECK(world.book().status(1) == "planned");
}

TEST_CASE(
    "under the moving average an abandoned batch gives plain things back with all they cost") {
    World world;
    lead(world,
         stocked({{Do::decide_order, {1, 0, 0, 0}}, receive(model::tag, 40), plan_leaf, cut}));
    const model::Count before = world.book().all_of(model::written_off).value;
    model::Count tags = 0;
    for (const auto& [lot, amount] : world.book().piles_of(world.book().batches[0].id))
        if (world.book().shelf(model::tag)[0].id == lot
            || world.book().shelf(model::tag)[1].id == lot)
            tags += amount.value;
    const model::Count held = world.book().all_of(world.book().batches[0].id).value;
    world.take(abandon_cut);
    CHECK(tags > 0);
    CHECK(world.book().all_of(model::written_off).value - before <= held - tags);
}

TEST_CASE("an offcut counted as missing that has gone another way since stops the count") {
    World world;
    lead(world, stocked({plan_leaf,
                         cut,
                         {Do::count_start, {}},
                         {Do::count_enter, {0, 0, 0, 1}},
                         {Do::write_off_offcut, {0, 0, 0, 1}},
                         {Do::count_post, {}}}));
    CHECK(world.book().counting);
}

TEST_CASE("under the moving average an offcut with value of several lots is listed once") {
    World world;
    lead(world, stocked({{Do::decide_order, {1, 0, 0, 0}},
                         receive(model::paper, 40),
                         plan_leaf,
                         cut,
                         plan_leaf,
                         cut,
                         plan_leaf,
                         cut,
                         {Do::make, {0, 2, 0, 1}}}));
    CHECK(world.book().offcuts_there().size() > 2);
}

TEST_CASE(
    "a lot that is empty and keeps but value of another gives that under the moving average") {
    World world;
    lead(world, {{Do::receive, {0, 0, 0, 0}},
                 {Do::reverse, {0, 0, 0, 0}},
                 {Do::receive, {0, 0, 0, 0}},
                 {Do::receive, {0, 0, 1, 1}},
                 {Do::reverse, {110, 1, 0, 0}},
                 {Do::decide_order, {262, 0, 0, 0}},
                 {Do::reverse, {0, 1, 0, 0}},
                 {Do::decide_order, {0, 0, 0, 0}},
                 {Do::receive, {0, 0, 0, 0}},
                 {Do::receive, {5264, 0, 272, 0}},
                 {Do::decide_order, {34, 0, 0, 0}},
                 {Do::reverse, {1995, 0, 0, 0}},
                 {Do::make, {130, 0, 0, 0}}});
    CHECK_FALSE(world.book().batches.empty());
}

TEST_CASE("value that went to an empty lot and on again within one entry is not moved back") {
    World world;
    lead(world, {
                    {Do::receive, {0, 0, 0, 0}},      {Do::reverse, {0, 0, 0, 0}},
                    {Do::receive, {8, 715, 2, 0}},    {Do::receive, {12, 10, 2, 0}},
                    {Do::count_start, {0, 0, 0, 0}},  {Do::count_post, {0, 0, 0, 0}},
                    {Do::decide_order, {1, 0, 0, 0}}, {Do::reverse, {2, 0, 0, 0}},
                    {Do::reverse, {1, 1, 0, 0}},      {Do::receive, {0, 0, 0, 0}},
                    {Do::reverse, {2, 1, 0, 0}},      {Do::give_back, {0, 0, 0, 1}},
                    {Do::receive, {0, 0, 0, 0}},      {Do::reverse, {4, 1, 0, 0}},
                    {Do::write_off, {4, 1, 1, 0}},    {Do::decide_order, {0, 0, 0, 0}},
                    {Do::reverse, {2, 1, 0, 0}},      {Do::receive, {0, 0, 0, 0}},
                    {Do::receive, {0, 0, 1, 0}},      {Do::reverse, {3740, 0, 0, 0}},
                    {Do::make, {1, 0, 1, 0}},         {Do::give_back, {0, 0, 0, 1}},
                    {Do::receive, {0, 0, 0, 0}},      {Do::take_apart, {0, 1, 0, 0}},
                    {Do::sell, {0, 0, 0, 1}},         {Do::split, {0, 0, 0, 0}},
                    {Do::reverse, {6, 1, 0, 0}},
                });
    CHECK(world.book().entries.back().reverses != 0);
}
