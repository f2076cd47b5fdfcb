#include "told.hpp"

#include <catch2/catch.hpp>

using barrow::test::Shop;
using barrow::test::stock_up;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

json held_of(Shop& shop, const std::string& code) {
    for (const auto& line : shop.list("stock", "materials"))
        if (line.at("code") == code) return line;
    return nullptr;
}

/// What reorder would buy of a material, in units.
std::int64_t bought_by(Shop& shop, const std::string& line, const std::string& code) {
    for (const auto& order : shop.list(line, "orders"))
        for (const auto& own : order.at("lines"))
            if (own.at("material") == code) return own.at("units");
    return 0;
}

json wanted_by(Shop& shop, const std::string& line) {
    return shop.list(line, "wanted").at(0);
}

} // namespace

TEST_CASE("a reel begun is a reel that is there", "[workshop][supply]") {
    Shop shop;
    shop.import("material import", "code,name,form,length,pack,pack_price,keep_from,reorder_at\n"
                                   "TAPE,Tape,length,25m,1,5.00,50cm,1\n");
    shop.done("receive TAPE --units 1 --cost 5.00");
    shop.design("[design]\ncode = \"tied\"\nname = \"Tied\"\n[materials]\ntape = \"TAPE\"\n"
                "[[part]]\nname = \"tie\"\nmaterial = \"tape\"\nlength = \"5 m\"\n");
    shop.done("make tied --make 1"); // 20 m of 25 are left, under a label
    CHECK(held_of(shop, "TAPE").at("on_hand") == 0);
    CHECK_THAT(shop.done("stock"), !Contains("low"));
    CHECK(bought_by(shop, "reorder", "TAPE") == 0);
    // One journal is finished, so four wanted take 15 m and leave 5 m; five leave nothing.
    CHECK(bought_by(shop, "reorder tied=4", "TAPE") == 0);
    CHECK(bought_by(shop, "reorder tied=5", "TAPE") == 1);
    shop.done("make tied --make 4");
    CHECK_THAT(shop.done("stock"), Contains("low"));
    CHECK(bought_by(shop, "reorder", "TAPE") == 1);
}

TEST_CASE("what is reserved is not there to cover a level", "[workshop][supply]") {
    // Twelve clasps, ten of them planned for: two are free, and the level is five.
    Shop shop;
    shop.import("material import", "code,name,form,pack,pack_price,reorder_at\n"
                                   "CLASP,Clasp,count,1,0.50,5\n");
    shop.done("receive CLASP --units 12 --cost 6.00");
    shop.design("[design]\ncode = \"box\"\nname = \"Box\"\n[materials]\nclasp = \"CLASP\"\n"
                "[[part]]\nname = \"clasp\"\nmaterial = \"clasp\"\nnumber = 1\n");
    CHECK(bought_by(shop, "reorder", "CLASP") == 0);
    shop.done("batch plan box --make 10");
    CHECK(bought_by(shop, "reorder", "CLASP") == 3);
    CHECK_THAT(shop.done("stock"), Contains("low"));
    shop.done("batch cut 1");
    CHECK(bought_by(shop, "reorder", "CLASP") == 3);
}

TEST_CASE("journals in the making count, and those that are not free to sell do not",
          "[workshop][supply]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 4");
    shop.done("batch plan leaflet --make 2");
    const std::string line = "reorder leaflet=10 --by 2027-05-01";
    CHECK(wanted_by(shop, line).at("finished") == 4);
    CHECK(wanted_by(shop, line).at("in_work") == 2);
    shop.done("journal change 1-01 --condition second");
    CHECK(wanted_by(shop, line).at("finished") == 3);
    shop.done({"fair", "new", "Quay", "--on", "2027-06-01"});
    shop.done("fair take 1 1-02");
    CHECK(wanted_by(shop, line).at("finished") == 2);
    // For that fair itself, they are what is wanted.
    CHECK(wanted_by(shop, "reorder leaflet=10 --by 2027-06-01").at("finished") == 3);
}

TEST_CASE("under the moving average what is sent back leaves the average alone",
          "[workshop][supply]") {
    // Ten at 1.00 and ten at 3.00 are 2.00 on average. Ten are used, for 20.00; five of the second
    // lot go back at 2.00 each, and five stay at 2.00 each.
    Shop shop;
    shop.done("settings cost-order moving-average");
    shop.done("material add PIN --name Pin --form count");
    shop.done("receive PIN --units 10 --cost 10.00");
    shop.done("receive PIN --units 10 --cost 30.00");
    shop.done("write-off PIN --units 10 --note used");
    const auto lots = shop.list("lots PIN", "lots");
    const std::int64_t dear = lots.at(lots.size() - 1).at("lot");
    const std::string said = shop.done("return " + std::to_string(dear) + " --units 5");
    CHECK_THAT(said, Contains("10.00 GBP"));
    CHECK_THAT(said, Contains("5.00 GBP more than it had cost"));
    CHECK(held_of(shop, "PIN").at("value") == "10.00");
    shop.sound();
    // The last go with all that is left; what is not refunded is lost, and that is said.
    const std::string last =
        shop.done("return " + std::to_string(dear) + " --units 5 --refund 6.50");
    CHECK_THAT(last, Contains("pays 6.50 GBP back") && Contains("written off: 3.50 GBP"));
    CHECK(held_of(shop, "PIN").at("value") == "0.00");
    shop.sound();
}

TEST_CASE("freight is not refunded unless that is said", "[workshop][supply]") {
    Shop shop;
    shop.done("material add PIN --name Pin --form count");
    shop.done("receive PIN --units 10 --cost 10.00 --freight 2.00");
    const std::string said = shop.done("return 5 --units 5");
    CHECK_THAT(said, Contains("pays 5.00 GBP back") && Contains("written off: 1.00 GBP"));
    const std::string all = shop.done("return 5 --units 5 --refund 6.00");
    CHECK_THAT(all, Contains("pays 6.00 GBP back") && !Contains("written off"));
    CHECK(shop.json("value").at("written_off") == "1.00");
    shop.sound();
}

TEST_CASE("nothing is booked before what it uses was there", "[workshop][days]") {
    Shop shop;
    shop.today = "2027-03-06";
    shop.done("material add PIN --name Pin --form count");
    shop.done("receive PIN --units 12 --cost 12.00");
    shop.today = "2027-03-01"; // the clock is behind
    const auto before = shop.run("write-off PIN --units 3 --note bent");
    CHECK(before.code == 1);
    CHECK_THAT(before.err, Contains("for 2027-03-01") && Contains("received only on 2027-03-06"));
    CHECK(shop.run("return 5 --units 3").code == 1);
    CHECK(shop.run("reverse 1").code == 1);
    const auto other = shop.run("material add NEW --name New --form count");
    CHECK(other.code == 0);
    CHECK_THAT(other.err, Contains("the clock says 2027-03-01"));
    shop.today = "2027-03-06";
    shop.done("write-off PIN --units 3 --note bent");
    shop.sound();
}

TEST_CASE("a thing is bought in one line, new or known", "[workshop][buy]") {
    Shop shop;
    const std::string said = shop.done({"buy", "Patterned pad", "--code", "PAT", "--sheet",
                                        "8in x 8in", "--pack", "48", "--paid", "14.99"});
    CHECK_THAT(said, Contains("PAT is a new material: Patterned pad") && Contains("48 sheets"));
    CHECK(held_of(shop, "PAT").at("on_hand") == 48);
    CHECK(held_of(shop, "PAT").at("value") == "14.99");
    const std::string again = shop.done("buy PAT --packs 2");
    CHECK_THAT(again, Contains("14.99 for a pack of 48 sheets, 29.98 for 96 sheets"));
    CHECK(held_of(shop, "PAT").at("on_hand") == 144);
    shop.done("receive PAT --packs 1"); // the pack price that is known
    CHECK(held_of(shop, "PAT").at("value") == "59.96");
    CHECK_THAT(shop.done("receive PAT --units 10 --price 3.00"),
               Contains("3.00 for a pack of 48 sheets, 0.63 for 10 sheets"));
    shop.done({"buy", "Green ribbon", "--reel", "25m", "--paid", "4.00"});
    CHECK(held_of(shop, "GREEN-RIBBON").at("form") == "length");
    shop.done({"buy", "Paste", "--bottle", "250 ml", "--paid", "3.00"});
    CHECK(held_of(shop, "PASTE").at("on_hand") == 250);
    CHECK_THAT(shop.refused(3, std::vector<std::string>{"buy", "Brush"}),
               Contains("say what it cost"));
    CHECK_THAT(shop.refused(3, {"buy", "Pad", "--sheet", "8x8", "--paid", "1"}),
               Contains("8 what?"));
    CHECK(held_of(shop, "BRUSH").is_null()); // both or neither
    shop.sound();
}
