#include "base/error.hpp"
#include "costing/price/price.hpp"

#include "costing/stock.hpp"
#include "support_csv.hpp"

#include <catch2/catch.hpp>

using namespace barrow::costing;
using namespace barrow::test;
using barrow::base::Error;
using barrow::base::Rational;
using barrow::base::read_rational;

namespace {

const barrow::base::Currency pounds{"GBP", 2};
const PricePoints every_penny{pence(1), pence(0)};

Rational percent(const std::string& text) {
    return read_rational(text).value() / Rational(100);
}

std::string in_percent(const Rational& share, int places) {
    return to_decimal(share * Rational(100), places);
}

} // namespace

TEST_CASE("margin and markup follow the retail table in both directions", "[price]") {
    for (const auto& row : rows_of("costing/markup_margin.csv")) {
        INFO("markup " << row[0]);
        const Rational markup = percent(row[0]);
        const Rational margin = margin_of_markup(markup);
        CHECK(in_percent(margin, 4) == row[1]);
        CHECK(to_decimal(Rational(1) / (Rational(1) - margin), 4) == row[2]);
        CHECK(markup_of_margin(margin) == markup);
    }
}

TEST_CASE("a markup of half is a margin of a third, exactly", "[price]") {
    CHECK(margin_of_markup(Rational::of(1, 2)) == Rational::of(1, 3));
    CHECK(markup_of_margin(Rational::of(1, 2)) == Rational(1)); // keystone
}

TEST_CASE("prices from cost and markup are those of the textbooks", "[price]") {
    for (const auto& row : rows_of("costing/pricing_openstax.csv")) {
        INFO(row[0] << " at " << row[1] << " %");
        const Money cost = read_money(row[0], pounds, "");
        const Price price = price_for(cost, margin_of_markup(percent(row[1])), every_penny);
        CHECK(to_text(price.exact, pounds) == row[2]);
        CHECK(price.asked == price.exact);
        CHECK(price.markup == percent(row[1]));
        CHECK(price.profit == price.asked - cost);
    }
}

TEST_CASE("the markup that is told is the one of the price that is asked", "[price]") {
    // OpenStax, Contemporary Mathematics, section 6.2: 5.20 sold at 9.90 is a markup of 90.38 %.
    const Price price = price_for(pence(520), Rational::of(2, 5), {pence(990), pence(0)});
    CHECK(price.asked == pence(990));
    CHECK(in_percent(price.markup, 2) == "90.38");
    CHECK(in_percent(price.margin, 2) == "47.47"); // 4.70 of 9.90, by arithmetic
    CHECK(price.wanted_margin == Rational::of(2, 5));
}

TEST_CASE("a price is rounded up to the next price point, never down", "[price]") {
    const PricePoints just_below{pence(100), pence(5)}; // ..., 10.95, 11.95, 12.95, ...
    const auto asked = [&](std::int64_t cost) {
        return price_for(pence(cost), Rational(0), just_below).asked.minor();
    };
    CHECK(asked(1094) == 1095);
    CHECK(asked(1095) == 1095); // on the point
    CHECK(asked(1096) == 1195);
    CHECK(asked(1195) == 1195);
    CHECK(asked(1) == 95);
    const PricePoints halves{pence(50), pence(0)};
    CHECK(price_for(pence(2103), Rational::of(45, 100), halves).exact == pence(3824)); // 38.2363...
    CHECK(price_for(pence(2103), Rational::of(45, 100), halves).asked == pence(3850));
}

TEST_CASE("the wanted margin is reached by every price", "[price]") {
    for (std::int64_t cost = 2; cost < 3000; cost += 7)
        for (const int margin : {0, 1, 33, 45, 50, 66, 99}) {
            const Rational wanted = Rational::of(margin, 100);
            const Price price = price_for(pence(cost), wanted, {pence(50), pence(1)});
            REQUIRE(price.margin >= wanted);
            REQUIRE(price.asked >= price.exact);
            REQUIRE(price.asked - price.exact < pence(50));
            REQUIRE((price.asked.minor() + 1) % 50 == 0);
            // A penny less would not keep the margin.
            REQUIRE(Rational::of(price.exact.minor() - 1 - cost, price.exact.minor() - 1) < wanted);
        }
}

TEST_CASE("what costs nothing has no markup and asks for nothing", "[price]") {
    const Price price = price_for(pence(0), Rational::of(1, 2), {pence(50), pence(0)});
    CHECK(price.asked.is_zero());
    CHECK(price.markup == Rational(0));
    CHECK(price.margin == Rational(0));
}

TEST_CASE("margins and price points that make no sense are refused", "[price]") {
    CHECK_THROWS_AS(price_for(pence(100), Rational(1), every_penny), Error);
    CHECK_THROWS_AS(price_for(pence(100), Rational::of(-1, 100), every_penny), Error);
    CHECK_THROWS_AS(price_for(pence(100), Rational(0), {pence(0), pence(0)}), Error);
    CHECK_THROWS_AS(price_for(pence(100), Rational(0), {pence(50), pence(50)}), Error);
    CHECK_THROWS_AS(price_for(pence(100), Rational(0), {pence(50), pence(-1)}), Error);
    CHECK_THROWS_AS(price_for(pence(Money::most), Rational::of(99, 100), every_penny), Error);
}
