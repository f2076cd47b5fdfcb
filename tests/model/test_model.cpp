// Long random histories of the whole stock book: every writing command, mixed, with time moving on.
// After each step a second, naive model of the ledger must agree to the unit
// (tests/model/book.hpp). A history that fails is made as small as will still fail, and printed.
//
// BARROW_MODEL_STEPS=100000 BARROW_MODEL_SEED=7 build/tests/model/test_model
// (BARROW_MODEL_AS_IT_CAME=1: not made small, which can take far longer than the run)

#include "model/step.hpp"
#include "model/world.hpp"

#include <catch2/catch.hpp>
#include <rapidcheck.h>
#include <rapidcheck/detail/TestListenerAdapter.h>

#include <chrono>
#include <cstdlib>
#include <iostream>
#include <map>
#include <sstream>
#include <unordered_map>

namespace {

using model::Do;
using model::Step;

/// As often as each should come up.
rc::Gen<Step> any_step() {
    const auto kind =
        rc::gen::weightedElement<Do>({{3, Do::wait},         {9, Do::receive},
                                      {7, Do::make},         {6, Do::plan},
                                      {7, Do::cut},          {6, Do::finish},
                                      {2, Do::abandon},      {8, Do::reverse},
                                      {2, Do::write_off},    {2, Do::write_off_offcut},
                                      {2, Do::give_back},    {4, Do::split},
                                      {3, Do::find},         {3, Do::sell},
                                      {1, Do::give},         {1, Do::damage},
                                      {4, Do::take_apart},   {1, Do::decide_order},
                                      {1, Do::decide_share}, {2, Do::count_start},
                                      {5, Do::count_enter},  {2, Do::count_post},
                                      {1, Do::count_drop},   {3, Do::order},
                                      {4, Do::order_comes},  {1, Do::order_ends},
                                      {2, Do::fair},         {2, Do::fair_take},
                                      {4, Do::fair_sell}});
    const auto number = rc::gen::inRange(0, 10'000);
    return rc::gen::construct<Step>(kind, rc::gen::container<std::array<int, 4>>(number));
}

long from_environment(const char* name, long otherwise) {
    const char* text = std::getenv(name);
    return text == nullptr ? otherwise : std::atol(text);
}

constexpr int longest = 240;           // steps of a history
constexpr std::size_t look_after = 60; // what grows with the ledger is looked at now and then

} // namespace

TEST_CASE("over long random histories the shop agrees with a naive model of the ledger") {
    const long wanted = from_environment("BARROW_MODEL_STEPS", 1'500);
    const long first_seed = from_environment("BARROW_MODEL_SEED", 1);
    long steps = 0, seed = first_seed, from_box = 0;
    std::map<Do, std::pair<long, long>> tally;
    rc::detail::TestListenerAdapter quiet;
    const std::unordered_map<std::string, rc::detail::Reproduce> reproduce;
    for (; steps < wanted; ++seed) {
        rc::detail::TestParams params;
        params.seed = static_cast<std::uint64_t>(seed);
        params.maxSuccess = 1;
        params.disableShrinking = std::getenv("BARROW_MODEL_AS_IT_CAME") != nullptr;
        const auto result = rc::detail::checkTestable(
            [&] {
                const auto history =
                    *rc::gen::resize(longest, rc::gen::container<std::vector<Step>>(any_step()));
                model::World world;
                for (std::size_t i = 0; i < history.size(); ++i) {
                    world.take(history[i]);
                    if (i % look_after == look_after - 1 || i + 1 == history.size())
                        world.look_back(history[i].numbers[3]);
                }
                steps += static_cast<long>(history.size());
                from_box += world.from_box();
                for (const auto& [what, times] : world.tally()) {
                    tally[what].first += times.first;
                    tally[what].second += times.second;
                }
            },
            rc::detail::TestMetadata{}, params, quiet, reproduce);
        std::ostringstream said;
        rc::detail::printResultMessage(result, said);
        INFO("seed " << seed << "\n" << said.str());
        REQUIRE(result.is<rc::detail::SuccessResult>());
    }
    if (std::getenv("BARROW_MODEL_STEPS") != nullptr) {
        std::cout << steps << " steps, seeds " << first_seed << " to " << seed - 1 << "\n";
        for (const auto& [what, times] : tally)
            std::cout << "  " << model::name_of(what) << ": " << times.first << " done, "
                      << times.second << " refused\n";
        std::cout << "  offcuts cut for fillers alone: " << from_box << "\n";
    }
    if (wanted >= 1'000) CHECK(from_box > 0);
    for (const auto& [what, times] : tally) {
        INFO("never done: " << model::name_of(what));
        if (wanted >= 1'000) CHECK(times.first > 0);
    }
}
