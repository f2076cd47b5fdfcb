#include "book/shop.hpp"
#include "support_csv.hpp"

#include <catch2/catch.hpp>

using barrow::test::rows_of;
using barrow::test::Shop;
using Catch::Matchers::Contains;
using nlohmann::json;

// OpenStax, Principles of Accounting Vol. 1: Financial Accounting (2019), ch. 10.3, perpetual: the
// purchases and sales of tests/costing/fifo_openstax.csv, played through the whole program. The
// book's year is not given: its dates here are of 2027, its dollars are pounds.

namespace {

/// A shop that trades in what the example sells, and a design that takes any number of them.
void open_for(Shop& shop, const std::string& order) {
    shop.import("material import", "code,name,form\nUNIT,Traded unit,count\n");
    shop.design("[design]\ncode = \"lot\"\nname = \"Lot\"\n[parameters]\n"
                "units = { usual = 1, whole = true, least = 1, most = 1000 }\n"
                "[materials]\nunit = \"UNIT\"\n"
                "[[part]]\nname = \"units\"\nmaterial = \"unit\"\nnumber = \"units\"\n");
    shop.done("settings cost-order " + order);
}

void buy(Shop& shop, const std::vector<std::string>& row) {
    shop.today = "2027-" + row[0];
    shop.done("receive UNIT --units " + row[2] + " --price " + row[3]);
}

std::string in_journals(Shop& shop) {
    return shop.json("value").at("in_journals");
}

std::string on_shelf(Shop& shop) {
    return shop.json("value").at("on_shelf");
}

/// Makes the sales into journals; each must cost what stands in that column.
void play(Shop& shop, std::size_t column) {
    for (const auto& row : rows_of("costing/fifo_openstax.csv")) {
        if (row[1] == "purchase") {
            buy(shop, row);
            continue;
        }
        shop.today = "2027-" + row[0];
        const std::string line = "lot --make 1 --set units=" + row[2];
        CHECK(shop.json("cost " + line).at("materials") == row[column]);
        shop.done("make " + line);
        shop.sound();
    }
}

} // namespace

TEST_CASE("first in, first out: the published example through the whole shop",
          "[workshop][cost-order]") {
    Shop shop;
    open_for(shop, "first-in-first-out");
    play(shop, 4);
    CHECK(in_journals(shop) == "7200.00");
    CHECK(on_shelf(shop) == "8955.00");
}

TEST_CASE("moving average: the published example through the whole shop",
          "[workshop][cost-order]") {
    Shop shop;
    open_for(shop, "moving-average");
    play(shop, 5);
    CHECK(in_journals(shop) == "7252.94");
    CHECK(on_shelf(shop) == "8902.06");
}

TEST_CASE("specific identification: the published example through the whole shop",
          "[workshop][cost-order]") {
    // The book's sales come from 120 at 21; then 20 at 21 and 160 at 27: 7,260 sold, 8,895 left.
    Shop shop;
    open_for(shop, "pick-the-lot");
    const auto rows = rows_of("costing/fifo_openstax.csv");
    buy(shop, rows[0]);
    shop.today = "2027-07-05";
    shop.done("make lot --make 1 --set units=120");
    buy(shop, rows[2]);
    shop.today = "2027-07-15";
    CHECK_THAT(shop.refused(1, "make lot --make 1 --set units=180"), Contains("lot"));
    const json lots = shop.json("lots UNIT").at("lots");
    REQUIRE(lots.size() == 2);
    const auto pick = [&](std::size_t which) {
        return " --lot UNIT=" + lots[which].at("lot").dump();
    };
    shop.done("make lot --make 1 --set units=20" + pick(0));
    shop.done("make lot --make 1 --set units=160" + pick(1));
    buy(shop, rows[4]);
    CHECK(in_journals(shop) == "7260.00");
    CHECK(on_shelf(shop) == "8895.00");
    shop.sound();
}

TEST_CASE("another cost order holds from its entry on and rewrites nothing",
          "[workshop][cost-order]") {
    Shop shop;
    open_for(shop, "first-in-first-out");
    shop.done("receive UNIT --units 10 --price 1");
    shop.done("receive UNIT --units 10 --price 3");
    shop.done("make lot --make 1 --set units=5");
    CHECK(in_journals(shop) == "5.00");
    shop.done("settings cost-order moving-average");
    const auto decided = std::to_string(shop.entry());
    CHECK(in_journals(shop) == "5.00");
    // Left: 5 at 1 and 10 at 3, 35 for 15; three of them cost 7.
    shop.done("make lot --make 1 --set units=3");
    CHECK(in_journals(shop) == "12.00");
    shop.sound();
    shop.done("reverse " + decided);
    CHECK(shop.json("settings").dump().find("first-in-first-out") != std::string::npos);
    shop.sound();
}

TEST_CASE("written-off stock leaves in the shop's cost order", "[workshop][cost-order]") {
    for (const auto& [order, cost] : std::vector<std::pair<std::string, std::string>>{
             {"first-in-first-out", "4.00"}, {"moving-average", "8.00"}}) {
        Shop shop;
        open_for(shop, order);
        shop.done("receive UNIT --units 10 --price 1");
        shop.done("receive UNIT --units 10 --price 3");
        shop.done("write-off UNIT --units 4 --note wet");
        CHECK(shop.json("value").at("written_off") == cost);
        shop.sound();
    }
}

TEST_CASE("where lots are picked, only what the plan takes is asked for",
          "[workshop][cost-order]") {
    Shop shop;
    shop.import("material import", "code,name,form,width,height\n"
                                   "REED,Reed paper,sheet,300mm,200mm\n"
                                   "RUSH,Rush paper,sheet,300mm,200mm\n");
    shop.design("[design]\ncode = \"card\"\nname = \"Card\"\n[materials]\n"
                "paper = { any_of = [\"REED\", \"RUSH\"] }\n"
                "[[part]]\nname = \"card\"\nmaterial = \"paper\"\nwidth = \"280 mm\"\n"
                "height = \"190 mm\"\n");
    shop.done("settings cost-order pick-the-lot");
    // The dearer paper lies in two lots, the cheaper, which is taken, in one.
    for (const char* line :
         {"RUSH --units 2 --cost 1.60", "RUSH --units 2 --cost 1.50", "REED --units 1 --cost 0.50"})
        shop.done(std::string("receive ") + line);
    CHECK(shop.json("cost card --make 1").at("lines").at(0).at("material") == "REED");
    shop.done("make card --make 1");
    const std::string said = shop.refused(1, "make card --make 1 --use paper=RUSH");
    CHECK_THAT(said, Contains("RUSH lies in 2 lots") && !Contains("REED"));
    shop.sound();
}

TEST_CASE("leaving the moving average, what is left goes on at what it cost on average",
          "[workshop][cost-order]") {
    // By hand: 10 at 2 and 10 at 1 are 30; ten used cost 15, all of them of the first lot, which
    // gave only 10 of its 20. The ten that are left are worth 15, whichever lot paid for them.
    for (const char* order : {"first-in-first-out", "pick-the-lot"}) {
        Shop shop;
        open_for(shop, "moving-average");
        shop.done("receive UNIT --units 10 --price 2");
        shop.done("receive UNIT --units 10 --price 1");
        shop.done("make lot --make 1 --set units=10");
        CHECK(in_journals(shop) == "15.00");
        shop.done(std::string("settings cost-order ") + order);
        const auto decided = std::to_string(shop.entry());
        const auto lots = shop.list("lots UNIT", "lots");
        REQUIRE(lots.size() == 1);
        CHECK(lots.at(0).at("value") == "15.00");
        shop.sound();
        shop.done("make lot --make 1 --set units=4");
        CHECK(in_journals(shop) == "21.00");
        // The decision cannot be taken back as long as what it passed on has been used.
        CHECK_THAT(shop.refused(1, "reverse " + decided), Contains("has been used since"));
        shop.done("reverse " + std::to_string(shop.entry()));
        shop.done("reverse " + decided);
        shop.sound();
        shop.done("settings cost-order first-in-first-out");
        shop.done("make lot --make 1 --set units=10");
        CHECK(in_journals(shop) == "30.00");
        CHECK(on_shelf(shop) == "0.00");
        shop.sound();
    }
}

TEST_CASE("what was made under the moving average comes back at that average",
          "[workshop][cost-order]") {
    // By hand: 10 at 1 and 10 at 3 cost 2 on average. Ten are used; the average is left; ten more
    // come at 9. When the use is taken back, ten of 2 lie beside ten of 2 and ten of 9.
    Shop shop;
    open_for(shop, "moving-average");
    shop.done("receive UNIT --units 10 --price 1");
    shop.done("receive UNIT --units 10 --price 3");
    shop.done("make lot --make 1 --set units=10");
    const auto used = std::to_string(shop.entry());
    shop.done("settings cost-order first-in-first-out");
    shop.done("receive UNIT --units 10 --price 9");
    shop.done("reverse " + used);
    const auto back = std::to_string(shop.entry());
    const auto values = [&] {
        std::vector<std::string> all;
        for (const auto& lot : shop.list("lots UNIT", "lots")) all.push_back(lot.at("value"));
        return all;
    };
    CHECK(values() == std::vector<std::string>{"20.00", "20.00", "90.00"});
    shop.sound();
    CHECK(shop.json("cost lot --make 1 --set units=10").at("materials") == "20.00");
    shop.done("reverse " + back);
    CHECK(values() == std::vector<std::string>{"20.00", "90.00"});
    CHECK(in_journals(shop) == "20.00");
    shop.sound();
}

TEST_CASE("a shop may begin with another cost order", "[workshop][cost-order]") {
    Shop shop({"--cost-order", "moving-average"});
    CHECK(shop.json("settings").at("settings").at("cost-order") == "moving-average");
    shop.done("material add UNIT --name Unit --form count");
    shop.done("receive UNIT --units 10 --cost 10.00");
    shop.done("receive UNIT --units 10 --cost 30.00");
    CHECK_THAT(shop.done("write-off UNIT --units 5 --note lost"), Contains("10.00 GBP"));
    shop.sound();
}

TEST_CASE("the last of a material sent back leaves no cost behind", "[workshop][cost-order]") {
    // By hand: 10 at 2 and 10 for nothing; under the moving average ten of them cost 10. When the
    // free ones go back at what they cost, 10 more have been lost on those that were used.
    Shop shop;
    open_for(shop, "moving-average");
    shop.done("receive UNIT --units 10 --price 2");
    shop.done("receive UNIT --units 10 --cost 0");
    shop.done("make lot --make 1 --set units=10");
    const auto lots = shop.list("lots UNIT", "lots");
    const std::string free = lots.at(lots.size() - 1).at("lot").dump();
    shop.done("return " + free + " --units 10");
    CHECK(in_journals(shop) == "10.00");
    CHECK(on_shelf(shop) == "0.00");
    CHECK(shop.json("value").at("written_off") == "10.00");
    shop.sound();
    shop.done("reverse " + std::to_string(shop.entry()));
    CHECK(on_shelf(shop) == "10.00");
    shop.sound();
}
