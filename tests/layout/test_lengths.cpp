#include "layout/model/instance.hpp"
#include "layout/search/completion.hpp"
#include "layout/search/tight_cover.hpp"

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
