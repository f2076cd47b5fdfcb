#include "costing/shelf/landed.hpp"

#include "costing/stock.hpp"

#include <catch2/catch.hpp>

#include <random>

using namespace barrow::costing;
using namespace barrow::test;

namespace {

Money sum(const std::vector<Money>& amounts) {
    Money total;
    for (const Money amount : amounts) total += amount;
    return total;
}

} // namespace

TEST_CASE("charges by value follow the published examination question", "[landed]") {
    // allinterview.com 112970: 20 units at 20.00 and 20 at 5.00 in foreign money come to 2,070 of
    // local money with 230 of charges: 1,656 + 184 and 414 + 46; 92.00 and 23.00 each.
    const auto costs =
        landed_costs({{pence(165600), 20}, {pence(41400), 20}}, pence(23000), ShareBy::value);
    CHECK(costs == std::vector<Money>{pence(20 * 9200), pence(20 * 2300)});
}

TEST_CASE("carriage by value and by quantity follows the published example", "[landed]") {
    // AAT forum 444273: 20 at 50, 30 at 75, 40 at 100, carriage 750. By value the rate is 0.103448:
    // 55.17, 82.76 and 110.34 each (the third by arithmetic). By quantity 8.3333 each (arithmetic).
    const std::vector<DeliveryLine> lines = {
        {pence(100000), 20}, {pence(225000), 30}, {pence(400000), 40}};
    const auto by_value = landed_costs(lines, pence(75000), ShareBy::value);
    const auto each = [&](std::size_t i) {
        return to_decimal(barrow::base::Rational::of(by_value[i].minor(), lines[i].quantity * 100),
                          2);
    };
    CHECK(each(0) == "55.17");
    CHECK(each(1) == "82.76");
    CHECK(each(2) == "110.34");
    CHECK(sum(by_value) == pence(800000));
    const auto by_quantity = landed_costs(lines, pence(75000), ShareBy::quantity);
    CHECK(by_quantity == std::vector<Money>{pence(116667), pence(250000), pence(433333)});
    CHECK(sum(by_quantity) == pence(800000));
}

TEST_CASE("a free sample carries no freight by value, unless everything was free", "[landed]") {
    const std::vector<DeliveryLine> one_free = {{pence(0), 6}, {pence(1000), 12}};
    CHECK(landed_costs(one_free, pence(300), ShareBy::value)
          == std::vector<Money>{pence(0), pence(1300)});
    CHECK(landed_costs(one_free, pence(300), ShareBy::quantity)
          == std::vector<Money>{pence(100), pence(1200)});
    const std::vector<DeliveryLine> all_free = {{pence(0), 6}, {pence(0), 12}};
    CHECK(landed_costs(all_free, pence(300), ShareBy::value)
          == std::vector<Money>{pence(100), pence(200)});
}

TEST_CASE("no freight leaves the prices as they are", "[landed]") {
    CHECK(landed_costs({{pence(123), 1}, {pence(0), 1}}, pence(0), ShareBy::value)
          == std::vector<Money>{pence(123), pence(0)});
    CHECK(landed_costs({}, pence(0), ShareBy::value).empty());
}

TEST_CASE("any delivery costs its goods and its freight, to the penny", "[landed]") {
    std::mt19937_64 random(5);
    for (int round = 0; round < 2000; ++round) {
        std::vector<DeliveryLine> lines;
        Money goods;
        for (std::uint64_t i = 0; i < 1 + random() % 12; ++i) {
            lines.push_back({pence(static_cast<std::int64_t>(random() % 3 * random() % 100'000)),
                             static_cast<std::int64_t>(1 + random() % 500)});
            goods += lines.back().price;
        }
        const Money extra = pence(static_cast<std::int64_t>(random() % 9999));
        for (const ShareBy by : {ShareBy::value, ShareBy::quantity}) {
            const auto costs = landed_costs(lines, extra, by);
            REQUIRE(sum(costs) == goods + extra);
            for (std::size_t i = 0; i < lines.size(); ++i) REQUIRE(costs[i] >= lines[i].price);
        }
    }
}
