#include "costing/price/break_even.hpp"

#include "support_csv.hpp"

#include <catch2/catch.hpp>

using barrow::base::Money;
using barrow::costing::break_even;
using barrow::test::rows_of;

TEST_CASE("break-even points are those of the textbook", "[break-even]") {
    for (const auto& row : rows_of("costing/break_even_openstax.csv")) {
        INFO(row[0]);
        const std::int64_t each = std::stoll(row[1]) - std::stoll(row[2]);
        const Money fixed = Money::of_minor(std::stoll(row[3]));
        CHECK(break_even(fixed, Money::of_minor(each), 1) == std::stoll(row[4]));
        // The same when what one brings is said of seven together.
        CHECK(break_even(fixed, Money::of_minor(7 * each), 7) == std::stoll(row[4]));
    }
}

TEST_CASE("a mean that is no whole penny is not rounded on the way", "[break-even]") {
    // By hand: three bring 10.00 together; 9.99 takes 2.997 of them, 10.00 just 3, 10.01 a fourth.
    CHECK(break_even(Money::of_minor(999), Money::of_minor(1000), 3) == 3);
    CHECK(break_even(Money::of_minor(1000), Money::of_minor(1000), 3) == 3);
    CHECK(break_even(Money::of_minor(1001), Money::of_minor(1000), 3) == 4);
    CHECK(break_even(Money(), Money::of_minor(1000), 3) == 0);
}

TEST_CASE("what brings nothing covers nothing", "[break-even]") {
    CHECK_FALSE(break_even(Money::of_minor(100), Money(), 3));
    CHECK_FALSE(break_even(Money::of_minor(100), Money::of_minor(-5), 3));
    CHECK_FALSE(break_even(Money::of_minor(100), Money::of_minor(5), 0));
    // More than can be counted is no number either.
    CHECK_FALSE(break_even(Money::of_minor(9'000'000'000'000'000'000), Money::of_minor(1), 100));
}
