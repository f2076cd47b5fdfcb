#include "base/error.hpp"
#include "base/money.hpp"

#include "support_csv.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>
#include <numeric>
#include <random>

using namespace barrow::base;

namespace {

const Currency pounds{"GBP", 2};

Money pence(std::int64_t minor) {
    return Money::of_minor(minor);
}

Money sum(const std::vector<Money>& parts) {
    return std::accumulate(parts.begin(), parts.end(), Money());
}

} // namespace

TEST_CASE("currencies have the minor units of ISO 4217", "[money]") {
    for (const auto& row : barrow::test::rows_of("base/currency_minor_units.csv")) {
        INFO(row[0]);
        CHECK(read_currency(row[0], "").exponent == std::stoi(row[1]));
    }
    CHECK(read_currency(" gbp ", "").code == "GBP");
    CHECK_THROWS_WITH(read_currency("GPB", "--currency"),
                      Catch::Contains("--currency") && Catch::Contains("did you mean GBP"));
}

TEST_CASE("money is read and printed with the decimals of its currency", "[money]") {
    CHECK(read_money("12.40", pounds, "") == pence(1240));
    CHECK(read_money("12.4", pounds, "") == pence(1240));
    CHECK(read_money("1,250.00", pounds, "") == pence(125000));
    CHECK(read_money("1,234,567", pounds, "") == pence(123456700));
    CHECK(read_money("1240", {"JPY", 0}, "") == pence(1240));
    CHECK(read_money("1.234", {"KWD", 3}, "") == pence(1234));
    CHECK(to_text(pence(1240), pounds) == "12.40");
    CHECK(to_text(pence(-5), pounds) == "-0.05");
    CHECK(to_text(pence(1240), {"JPY", 0}) == "1240");
    CHECK(to_text(pence(1240), {"KWD", 3}) == "1.240");
    for (const char* wrong : {"", "-1", "1.234", "1/2", "12,40", "1,2345", "12,500", "1,250", "£3",
                              "1e3", "abc", ",5", "10000000000000000"})
        CHECK_THROWS_AS(read_money(wrong, pounds, "x.csv:2, price"), Error);
}

TEST_CASE("money round-trips through its text in every exponent", "[money]") {
    std::mt19937_64 random(7);
    for (int i = 0; i < 2000; ++i) {
        const Money amount = pence(static_cast<std::int64_t>(random() % Money::most));
        for (const Currency& currency :
             {Currency{"JPY", 0}, pounds, Currency{"KWD", 3}, Currency{"CLF", 4}})
            REQUIRE(read_money(to_text(amount, currency), currency, "") == amount);
    }
}

TEST_CASE("an amount times a rate is rounded once, half away from zero", "[money]") {
    // OpenStax, Contemporary Mathematics (2023), section 6.2: sales tax 34.88 at 8.25 % is 2.88;
    // 428.99 at 8.25 % is 35.39; 62.00 with a markup of 15 % sells at 71.30.
    CHECK(times(pence(3488), Rational::of(825, 10000)) == pence(288));
    CHECK(times(pence(42899), Rational::of(825, 10000)) == pence(3539));
    CHECK(times(pence(6200), Rational::of(115, 100)) == pence(7130));
    CHECK(times(pence(5), Rational::of(1, 2)) == pence(3));
    CHECK(times(pence(-5), Rational::of(1, 2)) == pence(-3));
}

TEST_CASE("carriage shared over a delivery follows the published shares", "[money]") {
    // AAT forum 444273: 20 x 50, 30 x 75 and 40 x 100 with 750 carriage by value:
    // per unit 5.17, 7.76, 10.34 above the price; the third line by arithmetic.
    const std::vector<Wide> by_value = {1000, 2250, 4000};
    const auto shares = split(pence(75000), by_value);
    CHECK(shares == std::vector<Money>{pence(10345), pence(23276), pence(41379)});
    // The same by quantity (arithmetic): 8.3333 each.
    const std::vector<Wide> by_quantity = {20, 30, 40};
    CHECK(split(pence(75000), by_quantity)
          == std::vector<Money>{pence(16667), pence(25000), pence(33333)});
    // Exam question, allinterview.com 112970: 230 of charges over 1600 and 400 of value.
    const std::vector<Wide> charges = {400, 100};
    CHECK(split(pence(23000), charges) == std::vector<Money>{pence(18400), pence(4600)});
}

TEST_CASE("splitting never loses or makes a unit and stays within one of the exact share",
          "[money]") {
    std::mt19937_64 random(11);
    for (int round = 0; round < 2000; ++round) {
        std::vector<Wide> weights(1 + random() % 9);
        Wide total = 0;
        for (Wide& weight : weights) {
            weight = static_cast<Wide>(random() % 1'000'000'000'000) * (random() % 3);
            total += weight;
        }
        if (total == 0) continue;
        const auto minor = static_cast<std::int64_t>(random() % 100'000) - 50'000;
        const auto shares = split(pence(minor), weights);
        REQUIRE(sum(shares) == pence(minor));
        for (std::size_t i = 0; i < weights.size(); ++i) {
            const Wide off = Wide{shares[i].minor()} * total - Wide{minor} * weights[i];
            REQUIRE((off < total && off > -total));
            if (weights[i] == 0) REQUIRE(shares[i].is_zero());
        }
    }
    CHECK_THROWS_AS(split(pence(5), std::vector<Wide>{0, 0}), Error);
    CHECK(split(pence(0), std::vector<Wide>{0, 0}) == std::vector<Money>{pence(0), pence(0)});
    CHECK(split_evenly(pence(100), 3) == std::vector<Money>{pence(34), pence(33), pence(33)});
}

TEST_CASE("taking a store down in shares ends at exactly nothing", "[money]") {
    std::mt19937_64 random(13);
    for (int round = 0; round < 500; ++round) {
        auto whole = static_cast<std::int64_t>(1 + random() % 1000);
        Money left = pence(static_cast<std::int64_t>(random() % 100'000));
        const Money start = left;
        Money taken;
        while (whole > 0) {
            const auto part =
                static_cast<std::int64_t>(1 + random() % static_cast<std::uint64_t>(whole));
            const Money value = share(left, part, whole);
            REQUIRE(value.minor() >= 0);
            taken += value;
            left -= value;
            whole -= part;
        }
        REQUIRE(left.is_zero());
        REQUIRE(taken == start);
    }
}
