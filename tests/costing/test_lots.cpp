#include "base/error.hpp"
#include "costing/shelf/lots.hpp"

#include "costing/stock.hpp"
#include "support_csv.hpp"

#include <catch2/catch.hpp>

#include <random>

using namespace barrow::costing;
using namespace barrow::test;
using barrow::base::read_money;

namespace {

const barrow::base::Currency us_dollars{"USD", 2};

ShelfLot lot(std::int64_t id, std::int64_t quantity, std::int64_t minor) {
    return {id, {1, 1}, quantity, pence(minor), day(static_cast<int>(id))};
}

Money value_left(const std::vector<ShelfLot>& lots) {
    Money sum;
    for (const ShelfLot& lot : lots) sum += lot.value;
    return sum;
}

struct Played {
    Money sold;
    Money left;
};

/// Plays the published purchases and sales; each sale must cost what stands in the column.
Played play(CostOrder order, std::size_t column) {
    std::vector<ShelfLot> lots;
    Played played;
    for (const auto& row : rows_of("costing/fifo_openstax.csv")) {
        const std::int64_t units = std::stoll(row[2]);
        if (row[1] == "purchase") {
            lots.push_back(lot(static_cast<std::int64_t>(lots.size()) + 1, units,
                               units * std::stoll(row[3]) * 100));
            continue;
        }
        const Money cost = value_of(take_from(lots, units, order));
        INFO(row[0]);
        CHECK(to_text(cost, us_dollars) == row[column]);
        played.sold += cost;
    }
    played.left = value_left(lots);
    CHECK(on_hand(lots) == 285);
    return played;
}

} // namespace

TEST_CASE("first in, first out follows the published perpetual example to the cent", "[lots]") {
    // OpenStax, Principles of Accounting Vol. 1, ch. 10.3: cost of goods sold 7,200, left 8,955.
    const Played played = play(CostOrder::first_in_first_out, 4);
    CHECK(to_text(played.sold, us_dollars) == "7200.00");
    CHECK(to_text(played.left, us_dollars) == "8955.00");
}

TEST_CASE("the moving average follows the published perpetual example to the cent", "[lots]") {
    // The same example; the book prints 7,253 and 8,902, rounded to us_dollars.
    const Played played = play(CostOrder::moving_average, 5);
    CHECK(to_text(played.sold, us_dollars) == "7252.94");
    CHECK(to_text(played.left, us_dollars) == "8902.06");
}

TEST_CASE("the oldest lot gives first and an emptied lot gives all its value", "[lots]") {
    std::vector<ShelfLot> lots = {lot(1, 3, 100), lot(2, 5, 500)};
    const auto first = take_from(lots, 1, CostOrder::first_in_first_out);
    REQUIRE(first.size() == 1);
    CHECK(first[0].value == pence(33)); // a third of 1.00
    const auto second = take_from(lots, 4, CostOrder::first_in_first_out);
    REQUIRE(second.size() == 2);
    CHECK(second[0].lot == 1);
    CHECK(second[0].quantity == 2);
    CHECK(second[0].value == pence(67)); // what is left of it, not two thirds rounded
    CHECK(second[1].quantity == 2);
    CHECK(second[1].value == pence(200));
    CHECK(lots[0].quantity == 0);
    CHECK(lots[0].value.is_zero());
}

TEST_CASE("a free lot costs nothing and is used in its turn", "[lots]") {
    std::vector<ShelfLot> lots = {lot(1, 2, 0), lot(2, 2, 300)};
    CHECK(value_of(take_from(lots, 2, CostOrder::first_in_first_out)).is_zero());
    CHECK(value_of(take_from(lots, 1, CostOrder::first_in_first_out)) == pence(150));
}

TEST_CASE("things of one size are taken only from lots of that size", "[lots]") {
    std::vector<ShelfLot> lots = {lot(1, 8, 800), lot(2, 12, 600)};
    lots[0].size = {4, 1};
    lots[1].size = {6, 1};
    const auto takes =
        take_from(lots, 6, CostOrder::first_in_first_out, barrow::base::StockSize{6, 1});
    REQUIRE(takes.size() == 1);
    CHECK(takes[0].lot == 2);
    CHECK(takes[0].value == pence(300));
    // Averaged, the same six cost their share of everything: 1100 over 14 left is 78.57 each.
    const auto averaged =
        take_from(lots, 6, CostOrder::moving_average, barrow::base::StockSize{6, 1});
    CHECK(value_of(averaged) == pence(471));
    CHECK(lots[1].quantity == 0);
    CHECK(lots[0].quantity == 8);
}

TEST_CASE("taking more than the lots hold is a fault of the program, never a debt", "[lots]") {
    std::vector<ShelfLot> lots = {lot(1, 3, 100)};
    CHECK_THROWS_AS(take_from(lots, 4, CostOrder::first_in_first_out), barrow::base::Error);
    CHECK_THROWS_AS(take_from(lots, 4, CostOrder::moving_average), barrow::base::Error);
}

TEST_CASE("taking nothing takes nothing", "[lots]") {
    std::vector<ShelfLot> lots = {lot(1, 3, 100)};
    CHECK(take_from(lots, 0, CostOrder::first_in_first_out).empty());
    CHECK(take_from(lots, 0, CostOrder::moving_average).empty());
    std::vector<ShelfLot> none;
    CHECK(take_from(none, 0, CostOrder::moving_average).empty());
    CHECK(on_hand(none) == 0);
}

TEST_CASE("random takes lose and make nothing and stay within half a unit of the exact share",
          "[lots]") {
    std::mt19937_64 random(20270101);
    const auto below = [&](std::uint64_t limit) {
        return static_cast<std::int64_t>(random() % limit);
    };
    for (int round = 0; round < 1500; ++round) {
        const auto order =
            round % 2 == 0 ? CostOrder::first_in_first_out : CostOrder::moving_average;
        std::vector<ShelfLot> lots;
        for (std::int64_t i = 0; i <= below(5); ++i)
            lots.push_back(lot(i + 1, 1 + below(40), below(3) == 0 ? 0 : below(5000)));
        while (on_hand(lots) > 0) {
            const std::int64_t there = on_hand(lots);
            const Money before = value_left(lots);
            const std::vector<ShelfLot> was = lots;
            const std::int64_t part = 1 + below(static_cast<std::uint64_t>(there));
            const auto takes = take_from(lots, part, order);
            const Money taken = value_of(takes);
            REQUIRE(on_hand(lots) == there - part);
            REQUIRE(taken + value_left(lots) == before);
            std::int64_t quantity = 0;
            for (const LotTake& take : takes) {
                quantity += take.quantity;
                REQUIRE(take.value.minor() >= 0);
                REQUIRE(take.quantity >= 0);
            }
            REQUIRE(quantity == part);
            // Oldest first: once a lot still has something, no later one has given.
            bool stopped = false;
            for (std::size_t i = 0; i < lots.size(); ++i) {
                REQUIRE(lots[i].value.minor() >= 0);
                if (stopped) REQUIRE(lots[i].quantity == was[i].quantity);
                stopped = stopped || lots[i].quantity > 0;
            }
            if (order == CostOrder::moving_average) {
                const auto off = 2 * (taken.minor() * there - before.minor() * part);
                REQUIRE(off <= there);
                REQUIRE(-off <= there);
            }
        }
        REQUIRE(value_left(lots).is_zero()); // the last thing takes the last penny
    }
}
