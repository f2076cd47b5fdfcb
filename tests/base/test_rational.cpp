#include "base/error.hpp"
#include "base/rational.hpp"

#include "support_csv.hpp"

#include <catch2/catch.hpp>

#include <limits>

using namespace barrow::base;

TEST_CASE("a rational is kept in lowest terms with a positive divisor", "[rational]") {
    const Rational value = Rational::of(6, -8);
    CHECK(value.number() == -3);
    CHECK(value.divisor() == 4);
    CHECK(Rational::of(0, 5) == Rational(0));
}

TEST_CASE("a rational reads decimals, fractions and mixed numbers exactly", "[rational]") {
    CHECK(read_rational("2 1/4") == Rational::of(9, 4));
    CHECK(read_rational("1/3") == Rational::of(1, 3));
    CHECK(read_rational("0.1") == Rational::of(1, 10));
    CHECK(read_rational(".5") == Rational::of(1, 2));
    CHECK(read_rational("-2.75") == Rational::of(-11, 4));
    for (const char* wrong : {"", "-", "1.", "1/0", "1/", "/2", "1 2", "1e3", "0x10", "1.5/2",
                              "nan", "9999999999999999999", " 1", "1 "})
        CHECK_FALSE(read_rational(wrong).has_value());
}

TEST_CASE("arithmetic on rationals is exact and refuses to overflow", "[rational]") {
    CHECK(Rational::of(1, 3) + Rational::of(1, 6) == Rational::of(1, 2));
    CHECK(Rational::of(1, 3) - Rational::of(1, 2) == Rational::of(-1, 6));
    CHECK(Rational::of(2, 3) * Rational::of(3, 4) == Rational::of(1, 2));
    CHECK(Rational::of(2, 3) / Rational::of(-4, 3) == Rational::of(-1, 2));
    CHECK(Rational::of(1, 3) < Rational::of(34, 100));
    const Rational huge(std::numeric_limits<std::int64_t>::max());
    CHECK_THROWS_AS(huge + Rational(1), Error);
    CHECK_THROWS_AS(huge * Rational(2), Error);
    CHECK_THROWS_AS(-Rational(std::numeric_limits<std::int64_t>::min()), Error);
}

TEST_CASE("rounding goes to the nearest, exact halves away from zero", "[rational]") {
    // Source of the rows: tests/base/rounding_cases.csv names it.
    for (const auto& row : barrow::test::rows_of("base/rounding_cases.csv")) {
        const Rational value = read_rational(row[0]).value();
        const Rational quantum = read_rational(row[1]).value();
        const Rational expected = read_rational(row[2]).value();
        INFO(row[0] << " to a multiple of " << row[1]);
        CHECK(Rational((value / quantum).rounded()) * quantum == expected);
    }
}

TEST_CASE("floor and ceiling keep their direction below zero", "[rational]") {
    CHECK(Rational::of(-7, 2).floor() == -4);
    CHECK(Rational::of(-7, 2).ceiling() == -3);
    CHECK(Rational::of(7, 2).floor() == 3);
    CHECK(Rational::of(7, 2).ceiling() == 4);
    CHECK(Rational(-4).floor() == -4);
    CHECK(Rational(-4).ceiling() == -4);
}

TEST_CASE("rationals print exactly and are read back the same", "[rational]") {
    for (const char* text : {"0", "-3", "2.75", "0.000125", "1/3", "-22/7", "12345.678"}) {
        const Rational value = read_rational(text).value();
        CHECK(to_text(value) == text);
    }
    CHECK(to_decimal(Rational::of(2, 3), 2) == "0.67");
    CHECK(to_decimal(Rational::of(-1, 8), 2) == "-0.13");
    CHECK(to_decimal(Rational::of(5, 2), 0) == "3");
}
