#include "book/shop.hpp"

#include <catch2/catch.hpp>

using barrow::test::Shop;
using barrow::test::stock_up;
using Catch::Matchers::Contains;

namespace {

/// What is said of a journal that is in hand.
nlohmann::json journal(Shop& shop, const std::string& serial) {
    for (const auto& line : shop.list("journal list", "journals"))
        if (line.at("serial") == serial) return line;
    return nullptr;
}

std::string money_in(Shop& shop, const char* where) {
    return shop.json("value").at(where);
}

} // namespace

TEST_CASE("journals are listed with place, condition, price and cost", "[journals]") {
    Shop shop({"--hourly-rate", "10.00"});
    stock_up(shop);
    CHECK_THAT(shop.done("journal list"), Contains("No finished journals in hand."));
    shop.done("make leaflet --make 4");
    const auto lines = shop.json("journal list").at("journals");
    REQUIRE(lines.size() == 4);
    CHECK(lines[0].at("serial") == "1-01");
    CHECK(lines[0].at("condition") == "good");
    CHECK(lines[0].at("price").is_null());
    // Four covers fill one sheet of 0.80; 1.6 m of a roll of 2 m at 3.00 are used and 0.4 m kept;
    // twelve envelopes at 0.10 and 8 ml at 0.04: 0.80 + 2.40 + 1.20 + 0.32 = 4.72.
    CHECK(money_in(shop, "in_journals") == "4.72");
    CHECK(lines[3].at("materials") == "1.18");
    shop.sound();
}

TEST_CASE("a journal's place, price, condition and note change without an entry", "[journals]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 2");
    const auto before = shop.entry();
    shop.done({"journal", "change", "1-01", "1-02", "--place", "tin box", "--price", "12.50",
               "--condition", "second", "--note", "a dent"});
    auto line = journal(shop, "1-02");
    CHECK(line.at("place") == "tin box");
    CHECK(line.at("price") == "12.50");
    CHECK(line.at("condition") == "second");
    CHECK(line.at("note") == "a dent");
    CHECK_THAT(shop.done("journal list"), Contains("tin box") && Contains("second"));
    shop.done("journal change 1-02 --place - --price - --note - --condition good");
    line = journal(shop, "1-02");
    CHECK(line.at("place") == "");
    CHECK(line.at("price").is_null());
    CHECK(line.at("note") == "");
    CHECK(journal(shop, "1-01").at("place") == "tin box");
    CHECK(shop.entry() == before);

    CHECK_THAT(shop.refused(3, "journal change 1-01 --condition fair"), Contains("good or second"));
    CHECK_THAT(shop.refused(3, "journal change 1-01 --price 1.234"), Contains("--price"));
    CHECK(journal(shop, "1-01").at("price") == "12.50");
    shop.sound();
}

TEST_CASE("selling moves the cost of the materials to sold, and reversing brings it back",
          "[journals]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 4");
    const std::string said = shop.done("journal sell 1-01 1-03 --price 9.50");
    CHECK_THAT(said, Contains("19.00 GBP") && Contains("2.36"));
    CHECK(money_in(shop, "sold") == "2.36");
    CHECK(money_in(shop, "in_journals") == "2.36");
    CHECK(journal(shop, "1-01").is_null());
    shop.sound();

    shop.done("reverse " + std::to_string(shop.entry()));
    CHECK(money_in(shop, "sold") == "0.00");
    CHECK(!journal(shop, "1-01").is_null());
    shop.sound();

    // And the reversal can itself be reversed: they are sold after all.
    shop.done("reverse " + std::to_string(shop.entry()));
    CHECK(money_in(shop, "sold") == "2.36");
    CHECK(journal(shop, "1-03").is_null());
    shop.sound();
}

TEST_CASE("a journal is sold at its own price when none is said", "[journals]") {
    Shop shop({"--hourly-rate", "not set"}); // so that no price follows from the margin
    stock_up(shop);
    shop.done("make leaflet --make 2");
    CHECK_THAT(shop.refused(3, "journal sell 1-01"), Contains("--price"));
    shop.done("journal change 1-01 --price 14.00");
    CHECK_THAT(shop.refused(3, "journal sell 1-01 1-02"), Contains("1-02"));
    CHECK(!journal(shop, "1-01").is_null());
    CHECK_THAT(shop.done("journal sell 1-01"), Contains("14.00"));
    shop.sound();
}

TEST_CASE("a sale is dated on a day on which the journal was there", "[journals]") {
    Shop shop;
    stock_up(shop);
    shop.today = "2027-03-01";
    shop.done("make leaflet --make 2");
    shop.today = "2027-03-20";
    CHECK_THAT(shop.refused(3, "journal sell 1-01 --price 9 --date 2027-03-21"),
               Contains("future"));
    CHECK_THAT(shop.refused(3, "journal sell 1-01 --price 9 --date 2027-02-28"),
               Contains("2027-03-01"));
    shop.done("journal sell 1-01 --price 9 --date 2027-03-01");
    shop.done("reverse " + std::to_string(shop.entry()));
    // Sold on the 1st, back on the 20th: between these days it was not there.
    CHECK_THAT(shop.refused(3, "journal sell 1-01 --price 9 --date 2027-03-10"),
               Contains("2027-03-20"));
    shop.done("journal sell 1-02 --price 9 --date 2027-03-10");
    shop.sound();
}

TEST_CASE("giving away and damage want a reason and count as written off", "[journals]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 3");
    CHECK_THAT(shop.refused(1, "journal give 1-01"), Contains("--note"));
    CHECK_THAT(shop.refused(1, "journal damage 1-01"), Contains("--note"));
    const auto all = money_in(shop, "in_journals");
    shop.done({"journal", "give", "1-01", "--note", "to Ada for her birthday"});
    const auto given = shop.entry();
    shop.done({"journal", "damage", "1-02", "--note", "rain"});
    const auto damaged = shop.entry();
    CHECK(shop.json("journal list").at("journals").size() == 1);
    CHECK(money_in(shop, "sold") == "0.00");
    CHECK(money_in(shop, "written_off") != "0.00");
    shop.sound();
    shop.done("reverse " + std::to_string(given));
    shop.sound();
    shop.done("reverse " + std::to_string(damaged));
    shop.sound();
    CHECK(money_in(shop, "in_journals") == all);
    CHECK(money_in(shop, "written_off") == "0.00");
}

TEST_CASE("a journal that is not in hand is refused with when and by which entry it left",
          "[journals]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 5");
    const auto made = std::to_string(shop.entry());
    shop.today = "2027-03-07";
    shop.done("journal sell 1-01 --price 9");
    const auto sold = std::to_string(shop.entry());
    shop.done("journal give 1-02 --note Ada");
    const auto given = std::to_string(shop.entry());
    shop.done("journal damage 1-03 --note rain");
    const auto damaged = std::to_string(shop.entry());
    shop.done("journal apart 1-04 --get ENV=1");
    const auto apart = std::to_string(shop.entry());
    const std::string on = " on 2027-03-07 (entry ";
    CHECK_THAT(shop.refused(1, "journal sell 1-01 --price 9"), Contains("sold" + on + sold + ")"));
    CHECK_THAT(shop.refused(1, "journal give 1-02 --note x"),
               Contains("given away" + on + given + ")"));
    CHECK_THAT(shop.refused(1, "journal damage 1-03 --note x"),
               Contains("damaged" + on + damaged + ")"));
    CHECK_THAT(shop.refused(1, "journal apart 1-04 --get ENV=1"),
               Contains("taken apart" + on + apart + ")"));
    CHECK_THAT(shop.refused(1, "journal change 1-01 --place x"), Contains("entry " + sold));
    // Several at once are told together, and none of them is booked.
    const auto entry = shop.entry();
    const auto told = shop.refused(1, "journal sell 1-05 1-01 1-02 --price 9");
    CHECK_THAT(told, Contains("1-01") && Contains("1-02") && !Contains("1-05"));
    CHECK(shop.entry() == entry);
    // Made, then unmade: nothing was sold, there is just no journal.
    for (const auto& taken : {apart, damaged, given, sold}) shop.done("reverse " + taken);
    shop.done("reverse " + made);
    CHECK_THAT(shop.refused(1, "journal sell 1-05 --price 9"), Contains("entry " + made));
    shop.sound();
}

TEST_CASE("journals are named exactly, with the nearest for a slip", "[journals]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 2");
    CHECK_THAT(shop.refused(3, "journal sell 1-2 --price 9"), Contains("1-02"));
    CHECK_THAT(shop.refused(3, "journal sell 1-02 1-02 --price 9"), Contains("twice"));
    CHECK_THAT(shop.refused(2, "journal sel 1-02"), Contains("sell"));
    CHECK_THAT(shop.refused(2, "journal sell"), Contains("serial"));
}

TEST_CASE("the making of a journal cannot be reversed once it has been sold", "[journals]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 2");
    const auto made = shop.entry();
    shop.done("journal sell 1-01 --price 9");
    const auto sold = shop.entry();
    CHECK_THAT(shop.refused(1, "reverse " + std::to_string(made)),
               Contains("journal 1-01") && Contains(std::to_string(sold)));
    shop.sound();
}

TEST_CASE("a dry run of a sale books nothing", "[journals]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 1");
    const auto entry = shop.entry();
    shop.done("journal sell 1-01 --price 9 --dry-run");
    CHECK(shop.entry() == entry);
    CHECK(!journal(shop, "1-01").is_null());
}
