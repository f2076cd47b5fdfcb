#include "book/shop.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>

using barrow::test::Shop;
using barrow::test::stock_up;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

/// The small shop with other packs (MOSS in fours at 3.10, ENV in fifties at 4.99), a level for
/// MOSS, and a supplier GUM of pins that have no price.
void keep_supplied(Shop& shop) {
    stock_up(shop);
    shop.import("supplier import", "code,name,lead_days\nGUM,Gum and Daughters,2\n");
    shop.import("material import", "code,name,form,supplier,pack,pack_price,reorder_at\n"
                                   "MOSS,,,,4,3.10,6\nENV,,,,50,4.99,\nPIN,Pin,count,GUM,,,\n");
}

json line_of(const json& order, const std::string& code) {
    for (const auto& line : order.at("lines"))
        if (line.at("material") == code) return line;
    return nullptr;
}

json stocked(Shop& shop, const std::string& code) {
    for (const auto& line : shop.list("stock", "materials"))
        if (line.at("code") == code) return line;
    return nullptr;
}

} // namespace

TEST_CASE("an order is kept with its prices and the day it should come", "[orders]") {
    Shop shop;
    keep_supplied(shop);
    const std::string said =
        shop.done({"order", "place", "pell", "MOSS=10", "env=2packs", "--note", "by letter"});
    CHECK_THAT(said, Contains("Order 1 with Pellwether Papermakers (PELL)"));
    const json order = shop.json("order show 1");
    CHECK(order.at("kind") == "order");
    CHECK(order.at("status") == "open");
    CHECK(order.at("placed") == "2027-03-06");
    CHECK(order.at("expected") == "2027-03-15");
    CHECK(order.at("note") == "by letter");
    // By hand: ten sheets of packs of four at 3.10 are two and a half packs; two packs at 4.99.
    CHECK(line_of(order, "MOSS").at("cost") == "7.75");
    CHECK(line_of(order, "ENV").at("units") == 100);
    CHECK(line_of(order, "ENV").at("cost") == "9.98");
    CHECK(order.at("agreed") == "17.73");
    CHECK(stocked(shop, "MOSS").at("on_order") == 10);
    CHECK(stocked(shop, "MOSS").at("on_hand") == 10); // nothing has come yet
    shop.sound();
}

TEST_CASE("an order comes in parts, and the parts cost together what was agreed", "[orders]") {
    // By hand: 7 of packs of 4 at 3.10 are 5.425, agreed as 5.43. Three, six and seven sevenths of
    // that are 2.327, 4.654 and 5.43.
    Shop shop;
    keep_supplied(shop);
    // No currency has such a price, so nothing is kept.
    shop.refused(3, "order place PELL MOSS=7 --price MOSS=0.571428");
    shop.refused(3, "order show 1");
    shop.done("order place PELL MOSS=7 ENV=20");
    const auto received = [&](const std::string& line) {
        const std::string paid = line_of(shop.json("order show 1"), "MOSS").at("paid");
        shop.done(line);
        shop.sound();
        return std::pair(paid,
                         line_of(shop.json("order show 1"), "MOSS").at("paid").get<std::string>());
    };
    CHECK(line_of(shop.json("order show 1"), "MOSS").at("cost") == "5.43");
    CHECK(received("receive MOSS --order 1 --units 3")
          == std::pair<std::string, std::string>("0.00", "2.33"));
    CHECK(received("receive MOSS --order 1 --units 3")
          == std::pair<std::string, std::string>("2.33", "4.65"));
    CHECK(line_of(shop.json("order show 1"), "MOSS").at("outstanding") == 1);
    CHECK(stocked(shop, "MOSS").at("on_order") == 1);
    // The rest of it, all lines, without naming any: 0.78 of paper, 2.00 of envelopes (20 of packs
    // of 50 at 4.99), so that 0.56 of the freight go to the paper.
    CHECK(received("receive --order 1 --freight 2.00")
          == std::pair<std::string, std::string>("4.65", "5.99"));
    const json order = shop.json("order show 1");
    CHECK(order.at("status") == "received");
    CHECK(line_of(order, "ENV").at("received") == 20);
    CHECK(stocked(shop, "MOSS").at("on_hand") == 17);
    CHECK(stocked(shop, "MOSS").at("on_order") == 0);
    CHECK(shop.json("order list").at("orders").empty());
    CHECK(shop.json("order list --all").at("orders").size() == 1);
    CHECK_THAT(shop.refused(3, "receive --order 1"), Contains("nothing is outstanding"));
    // More came than was asked for: it is still of that order.
    shop.done("receive MOSS --order 1 --units 2 --cost 0");
    CHECK(line_of(shop.json("order show 1"), "MOSS").at("received") == 9);
    shop.sound();
}

TEST_CASE("what does not belong to an order is refused, and nothing is booked", "[orders]") {
    Shop shop;
    keep_supplied(shop);
    shop.done("order place PELL MOSS=7 --expected 2027-03-20");
    const json before = {shop.json("stock"), shop.json("log")};
    CHECK_THAT(shop.refused(3, "receive MOSS --order 4 --units 1"), Contains("no order 4"));
    CHECK_THAT(shop.refused(3, "receive GLUE --order 1 --units 50ml"),
               Contains("does not ask for GLUE"));
    CHECK_THAT(shop.refused(3, "receive MOSS --order 1 --units 1 --supplier GUM"),
               Contains("not placed with GUM"));
    CHECK_THAT(shop.refused(3, "receive MOSS --order 1 --units 1 --date 2027-03-01"),
               Contains("before order 1 was placed"));
    CHECK_THAT(shop.refused(3, "receive --order 1 --units 3"), Contains("for a whole order"));
    CHECK_THAT(shop.refused(3, "order place PELL MOSS=1 moss=2"), Contains("asked for twice"));
    CHECK_THAT(shop.refused(3, "order place PELL MOSS=0"), Contains("MOSS, units"));
    CHECK_THAT(shop.refused(3, "order place PELT MOSS=1"), Contains("PELL"));
    CHECK_THAT(shop.refused(3, "order place PELL MOSS=1 --expected 2027-03-01"),
               Contains("before the day"));
    CHECK_THAT(shop.refused(2, "order place PELL MOSS"), Contains("MOSS"));
    CHECK_THAT(shop.refused(2, "order place PELL MOSS=1 --price ENV=2"), Contains("ENV"));
    CHECK_THAT(shop.refused(3, "order show 9"), Contains("no order 9"));
    CHECK(json{shop.json("stock"), shop.json("log")} == before);
}

TEST_CASE("what no price is known of must be said when it comes", "[orders]") {
    Shop shop;
    keep_supplied(shop);
    shop.done("order place GUM PIN=25");
    const json order = shop.json("order show 1");
    CHECK(line_of(order, "PIN").at("units") == 25);
    CHECK(line_of(order, "PIN").at("cost").is_null());
    CHECK(order.at("agreed_is_whole") == false);
    CHECK_THAT(shop.refused(3, "receive --order 1"), Contains("says nothing of what PIN costs"));
    shop.done("receive PIN --order 1 --units 25 --cost 6.40");
    CHECK(shop.json("order show 1").at("status") == "received");
    shop.sound();
}

TEST_CASE("what is sent back came, but is not on order again until it is ordered anew",
          "[orders][return]") {
    Shop shop;
    keep_supplied(shop);
    const auto lot_of_last = [&] {
        return shop.list("lots MOSS", "lots").back().at("lot").get<std::int64_t>();
    };
    const auto send_back = [&](std::int64_t lot, int units) {
        shop.done(fmt::format("return {} --units {}", lot, units));
    };
    shop.done("order place PELL MOSS=20 ENV=50");
    shop.done("receive MOSS --order 1 --units 12");
    CHECK_THAT(shop.done("order show 1"), !Contains("sent back"));
    const std::int64_t lot = lot_of_last();
    send_back(lot, 3);
    send_back(lot, 2);
    // By hand: of 20, 12 came and 5 of those went back; 8 are still to come, and no more.
    json order = shop.json("order show 1");
    CHECK(line_of(order, "MOSS").at("received") == 12);
    CHECK(line_of(order, "MOSS").at("sent_back") == 5);
    CHECK(line_of(order, "MOSS").at("outstanding") == 8);
    CHECK(line_of(order, "ENV").at("sent_back") == 0);
    CHECK(stocked(shop, "MOSS").at("on_order") == 8);
    CHECK(stocked(shop, "MOSS").at("on_hand") == 17); // ten there were before
    CHECK_THAT(shop.done("order show 1"), Contains("sent back") && Contains("place a new order")
                                              && Contains("12 sheets   5 sheets       8 sheets"));
    CHECK_THAT(shop.done("order show 1 --csv"), Contains("MOSS,Moss paper,20,sheet,12,5,8,"));
    // The rest comes: the order is done, though less is there than was asked for.
    shop.done("receive --order 1");
    order = shop.json("order show 1");
    CHECK(order.at("status") == "received");
    CHECK(line_of(order, "MOSS").at("sent_back") == 5);
    CHECK_THAT(shop.done("order list --all"), Contains("all received, some sent back"));
    CHECK(stocked(shop, "MOSS").at("on_order") == 0);
    // A new order awaits it again, and what went back of one is not shown with another.
    shop.done("order place PELL MOSS=5");
    CHECK(stocked(shop, "MOSS").at("on_order") == 5);
    CHECK(line_of(shop.json("order show 2"), "MOSS").at("sent_back") == 0);
    // Sending back is taken back like anything else.
    send_back(lot, 1);
    CHECK(line_of(shop.json("order show 1"), "MOSS").at("sent_back") == 6);
    shop.done(fmt::format("reverse {}", shop.entry()));
    CHECK(line_of(shop.json("order show 1"), "MOSS").at("sent_back") == 5);
    // What came for no order, and what left another way, was not sent back of one.
    send_back(shop.list("lots MOSS", "lots").front().at("lot").get<std::int64_t>(), 1);
    shop.done("write-off MOSS --units 12 --note torn"); // nine of the old, three of the order
    CHECK(line_of(shop.json("order show 1"), "MOSS").at("sent_back") == 5);
    shop.sound();
}

TEST_CASE("sent back under a moving average is counted in whole units too", "[orders][return]") {
    Shop shop;
    keep_supplied(shop);
    shop.done("settings cost-order moving-average");
    shop.done("order place PELL MOSS=8");
    shop.done("receive MOSS --order 1 --units 4 --cost 9.99");
    const auto lots = shop.list("lots MOSS", "lots");
    REQUIRE(lots.size() > 1); // their cost is one average, and goes back out of each of them
    shop.done(fmt::format("return {} --units 3", lots.back().at("lot").get<std::int64_t>()));
    CHECK(line_of(shop.json("order show 1"), "MOSS").at("sent_back") == 3);
    shop.sound();
}

TEST_CASE("the rest of an order can be given up, and that can be taken back", "[orders]") {
    Shop shop;
    keep_supplied(shop);
    shop.done("order place PELL MOSS=7");
    shop.done("receive MOSS --order 1 --units 3");
    shop.done({"order", "end", "1", "--note", "sold out"});
    const std::int64_t end = shop.entry();
    CHECK(shop.json("order show 1").at("status") == "ended");
    CHECK(stocked(shop, "MOSS").at("on_order") == 0);
    CHECK_THAT(shop.refused(1, "order end 1"), Contains("it is ended"));
    CHECK_THAT(shop.refused(3, "receive MOSS --order 1 --units 1"), Contains("was ended"));
    shop.done("reverse " + std::to_string(end));
    CHECK(shop.json("order show 1").at("status") == "open");
    CHECK(stocked(shop, "MOSS").at("on_order") == 4);
    shop.sound();
}

TEST_CASE("an order is not taken back under what came for it", "[orders][reverse]") {
    Shop shop;
    keep_supplied(shop);
    shop.done("order place PELL MOSS=7");
    const std::string placed = std::to_string(shop.entry());
    shop.done("receive MOSS --order 1 --units 3");
    const std::string came = std::to_string(shop.entry());
    CHECK_THAT(shop.refused(1, "reverse " + placed), Contains("first reverse: " + came));
    shop.done("reverse " + came);
    const std::string back = std::to_string(shop.entry());
    CHECK(stocked(shop, "MOSS").at("on_order") == 7); // it is to come again
    shop.done("reverse " + placed);
    const std::string undone = std::to_string(shop.entry());
    CHECK(shop.json("order show 1").at("status") == "undone");
    CHECK(stocked(shop, "MOSS").at("on_order") == 0);
    CHECK_THAT(shop.refused(1, "reverse " + back), Contains("first reverse: " + undone));
    shop.done("reverse " + undone);
    shop.done("reverse " + back);
    CHECK(line_of(shop.json("order show 1"), "MOSS").at("received") == 3);
    shop.sound();
}

TEST_CASE("what is on order and comes in time is not bought again", "[orders][reorder]") {
    Shop shop;
    keep_supplied(shop);
    // Forty leaflets take ten sheets at the least, all there are; six are to be left after them.
    const auto need = [&](const std::string& by) {
        return shop.json("reorder leaflet=40 --by " + by);
    };
    const auto packs = [&](const json& reorder, const std::string& code) {
        for (const auto& order : reorder.at("orders"))
            for (const auto& line : order.at("lines"))
                if (line.at("material") == code) return line.at("packs").get<int>();
        return 0;
    };
    CHECK(packs(need("2027-04-01"), "MOSS") == 2); // six sheets in packs of four
    shop.done("order place PELL MOSS=1packs --expected 2027-03-20");
    CHECK(packs(need("2027-04-01"), "MOSS") == 1);
    CHECK(need("2027-04-01").at("doubts").empty());
    // Too late for another day: not counted, but named.
    const json early = need("2027-03-19");
    CHECK(packs(early, "MOSS") == 2);
    REQUIRE(early.at("doubts").size() == 1);
    CHECK(early.at("doubts")[0].at("counted") == false);
    CHECK_THAT(shop.done("reorder leaflet=40 --by 2027-03-19"), Contains("only on 2027-03-20"));
    // Overdue: counted, and named.
    shop.today = "2027-03-25";
    const json late = need("2027-04-01");
    CHECK(packs(late, "MOSS") == 1);
    REQUIRE(late.at("doubts").size() == 1);
    CHECK(late.at("doubts")[0].at("counted") == true);
    CHECK(shop.json("order show 1").at("overdue") == true);
}

TEST_CASE("what a reorder says is ordered in one go, and then is not asked for any more",
          "[orders][reorder]") {
    Shop shop;
    keep_supplied(shop);
    const json wanted = shop.json("reorder leaflet=40 --by 2027-04-01");
    // A dry run says all of it and keeps none.
    const std::string asked = shop.done("reorder leaflet=40 --by 2027-04-01 --place --dry-run");
    CHECK(shop.json("order list --all").at("orders").empty());
    const std::string said = shop.done("reorder leaflet=40 --by 2027-04-01 --place");
    CHECK(said == asked);
    CHECK_THAT(said, Contains("is placed with Pellwether Papermakers"));
    const json orders = shop.json("order list");
    REQUIRE(orders.at("orders").size() == wanted.at("orders").size());
    REQUIRE(orders.at("orders").size() == 2); // paper, and ribbon
    for (std::size_t i = 0; i < 2; ++i) {     // newest first
        const json& order = orders.at("orders")[1 - i];
        CHECK(order.at("supplier") == wanted.at("orders")[i].at("supplier"));
        CHECK(order.at("agreed") == wanted.at("orders")[i].at("total"));
        CHECK(order.at("lines").size() == wanted.at("orders")[i].at("lines").size());
    }
    CHECK(shop.json("reorder leaflet=40 --by 2027-04-01").at("orders").empty());
    shop.sound();
}

TEST_CASE("orders can be taken to a spreadsheet", "[orders]") {
    Shop shop;
    keep_supplied(shop);
    shop.done("order place PELL MOSS=7");
    CHECK(shop.done("order show 1 --csv")
          == "order,supplier,placed,expected,status,material,name,units,unit,received,"
             "sent_back,outstanding,cost\n"
             "1,PELL,2027-03-06,2027-03-15,open,MOSS,Moss paper,7,sheet,0,0,7,5.43\n");
    CHECK(shop.done("order list --csv") == shop.done("order show 1 --csv"));
}

TEST_CASE("an order may be a file", "[orders]") {
    Shop shop;
    keep_supplied(shop);
    shop.import("order place PELL --from", "material,units,packs,price\nMOSS,,2,3.00\nENV,20,,\n");
    CHECK(line_of(shop.json("order show 1"), "MOSS").at("units") == 8);
    CHECK(line_of(shop.json("order show 1"), "MOSS").at("cost") == "6.00");
    CHECK_THAT(shop.refused(2, "order place PELL"), Contains("not clear what is ordered"));
    const auto said =
        shop.run({"order", "place", "PELL", "--from", "-"}, "material,units\nMOSS,2\nMOOS,3\n");
    CHECK(said.code == 3);
    CHECK_THAT(said.err, Contains("-:3, material") && Contains("MOSS"));
    CHECK(shop.json("order list").at("orders").size() == 1);
}

TEST_CASE("a delivery file may name orders", "[orders]") {
    Shop shop;
    keep_supplied(shop);
    shop.done("order place PELL MOSS=7 ENV=20");
    shop.import("receive --from", "material,units,order,freight\nMOSS,3,1,0.60\nMOSS,4,1,\n");
    const json order = shop.json("order show 1");
    // Both rows of the file together cost what was agreed, and the freight.
    CHECK(line_of(order, "MOSS").at("paid") == "6.03");
    CHECK(line_of(order, "MOSS").at("outstanding") == 0);
    CHECK(order.at("status") == "open");
    shop.sound();
}
