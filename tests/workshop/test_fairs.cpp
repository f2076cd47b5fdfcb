#include "book/shop.hpp"

#include <catch2/catch.hpp>

using barrow::test::Shop;
using barrow::test::stock_up;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

/// The small shop with five leaflets, 1-01 to 1-05; without a wage, so that only materials count.
void keep_made(Shop& shop) {
    stock_up(shop);
    shop.done("make leaflet --make 5");
    shop.today = "2027-05-02";
}

std::string text_of(const json& money) {
    return money.get<std::string>();
}

/// Minor units of "12.40".
long minor(const json& money) {
    std::string text = text_of(money);
    text.erase(text.find('.'), 1);
    return std::stol(text);
}

json journal_of(const json& fair, const std::string& serial) {
    for (const auto& one : fair.at("journals"))
        if (one.at("serial") == serial) return one;
    return nullptr;
}

} // namespace

TEST_CASE("a fair tells what was taken along, sold and brought back, and what is left", "[fairs]") {
    Shop shop;
    keep_made(shop);
    shop.done({"fair", "new", "Spring fair", "--on", "2027-05-01", "--fee", "6.00"});
    shop.done("fair take 1 leaflet=3");
    shop.done("fair take 1 1-05");
    shop.done("fair pay 1 travel 1.40");
    shop.done("fair sell 1 1-01 1-02 --price 9.00");
    shop.done("fair sell 1 1-04 --price 7.50"); // was not on the list
    const json fair = shop.json("fair show 1");
    CHECK(fair.at("kind") == "fair");
    CHECK(fair.at("taken_along") == 5);
    CHECK(fair.at("sold") == 3);
    CHECK(fair.at("takings") == "25.50");
    CHECK(journal_of(fair, "1-03").at("sold_for").is_null());
    CHECK(journal_of(fair, "1-04").at("sold_for") == "7.50");
    // The materials of those sold are what the shop says went out with them.
    CHECK(fair.at("materials") == shop.json("value").at("sold"));
    CHECK(minor(fair.at("left"))
          == minor(fair.at("takings")) - minor(fair.at("materials")) - 600 - 140);
    CHECK(fair.at("profit") == fair.at("left")); // no wage, no overheads
    // The sale is of the day of the fair, whenever it is written down.
    CHECK(shop.json("report year --from 2027-05-01 --to 2027-05-01").at("takings") == "25.50");
    CHECK(shop.json("report year --from 2027-05-01 --to 2027-05-01").at("fairs") == "7.40");
    CHECK(shop.json("report year --from 2027-05-02 --to 2027-12-31").at("fairs") == "0.00");
    CHECK(shop.json("journal list").at("journals").size() == 2);
    CHECK(shop.json("fair list").at("fairs").size() == 1);
    shop.sound();
}

TEST_CASE("before a fair, how many cover it is worked out from what is on the list", "[fairs]") {
    Shop shop;
    keep_made(shop);
    shop.done({"fair", "new", "Spring fair", "--on", "2027-06-01", "--fee", "20.00"});
    shop.done("journal change 1-01 1-02 1-03 1-04 1-05 --price 9.00");
    CHECK(shop.json("fair show 1").at("to_cover").is_null());
    shop.done("fair take 1 leaflet=5");
    const json fair = shop.json("fair show 1");
    // By hand from the costs it names: the least number whose share of what five bring over their
    // materials is not below the fee.
    long over = 0;
    for (const auto& one : fair.at("journals")) over += 900 - minor(one.at("cost"));
    long number = 0;
    while (number * over < 5 * 2000) ++number;
    CHECK(fair.at("to_cover") == number);
    CHECK_THAT(shop.done("fair show 1"), Contains("for the fair on average"));
    shop.done("fair pay 1 hotel 900");
    CHECK_THAT(shop.done("fair show 1"), Contains("would not bring in"));
    CHECK_THAT(shop.refused(3, "fair sell 1 1-01 --price 9"), Contains("only on 2027-06-01"));
}

TEST_CASE("what does not fit a fair is refused, and nothing is noted", "[fairs]") {
    Shop shop;
    keep_made(shop);
    shop.done({"fair", "new", "Spring fair", "--on", "2027-05-01"});
    shop.done("fair take 1 1-01");
    shop.done("journal sell 1-02 --price 8");
    const json before = {shop.json("fair list"), shop.json("log"), shop.json("journal list")};
    CHECK_THAT(shop.refused(3, "fair show 2"), Contains("no fair 2"));
    CHECK_THAT(shop.refused(3, "fair take 1 1-01"), Contains("on the list already"));
    CHECK_THAT(shop.refused(3, "fair take 1 1-03 1-03"), Contains("named twice"));
    CHECK_THAT(shop.refused(1, "fair take 1 1-02"), Contains("not in hand"));
    CHECK_THAT(shop.refused(1, "fair take 1 leaflet=4"), Contains("only 3 in hand"));
    CHECK_THAT(shop.refused(1, "fair take 1 leaflt=1"), Contains("leaflet"));
    CHECK_THAT(shop.refused(2, "fair take 1 leaflet=none"), Contains("leaflet=none"));
    CHECK_THAT(shop.refused(1, "fair sell 1 1-02 --price 8"), Contains("not in hand"));
    CHECK_THAT(shop.refused(3, "fair sell 1 1-03 --price x"), Contains("--price"));
    CHECK_THAT(shop.refused(3, "fair pay 1 travel -3"), Contains("-3"));
    CHECK_THAT(shop.refused(3, {"fair", "new", " ", "--on", "2027-05-01"}), Contains("name"));
    CHECK_THAT(shop.refused(3, {"fair", "new", "May", "--on", "2027-05-41"}), Contains("--on"));
    CHECK(json{shop.json("fair list"), shop.json("log"), shop.json("journal list")} == before);
}

TEST_CASE("what is noted of a fair is taken back by number, the fair last", "[fairs][reverse]") {
    Shop shop;
    keep_made(shop);
    shop.done({"fair", "new", "Spring fair", "--on", "2027-05-01", "--fee", "6.00"});
    const std::string noted = std::to_string(shop.entry());
    shop.done("fair take 1 leaflet=2");
    const std::string took = std::to_string(shop.entry());
    shop.done("fair sell 1 1-01 --price 9");
    const std::string sold = std::to_string(shop.entry());
    CHECK_THAT(shop.refused(1, "reverse " + noted), Contains(took) && Contains(sold));
    shop.done("reverse " + sold);
    const std::string unsold = std::to_string(shop.entry());
    CHECK(shop.json("fair show 1").at("sold") == 0);
    CHECK(shop.json("fair show 1").at("taken_along") == 2);
    shop.done("reverse " + took);
    CHECK(shop.json("fair show 1").at("taken_along") == 0);
    shop.done("reverse " + noted);
    const std::string undone = std::to_string(shop.entry());
    CHECK(shop.json("fair list").at("fairs").empty());
    CHECK(shop.json("report year --from 2027-01-01 --to 2027-12-31").at("fairs") == "0.00");
    CHECK_THAT(shop.refused(3, "fair take 1 1-02"), Contains("taken back"));
    CHECK_THAT(shop.refused(1, "reverse " + unsold), Contains("first reverse: " + undone));
    shop.done("reverse " + undone);
    shop.done("reverse " + unsold);
    CHECK(shop.json("fair show 1").at("sold") == 1);
    CHECK(shop.json("fair show 1").at("taken_along") == 1); // by being sold
    shop.sound();
}

TEST_CASE("fairs can be taken to a spreadsheet", "[fairs]") {
    Shop shop;
    keep_made(shop);
    shop.done({"fair", "new", "=May, the first", "--on", "2027-05-01", "--fee", "6.00"});
    shop.done("fair sell 1 1-01 --price 9");
    CHECK_THAT(shop.done("fair list --csv"), Contains("\"'=May, the first\",1,1,9.00,"));
    CHECK_THAT(shop.done("fair show 1 --csv"), Contains("1,2027-05-01,1-01,Leaflet,"));
}
