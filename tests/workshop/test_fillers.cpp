#include "tied.hpp"
#include "told.hpp"

#include <catch2/catch.hpp>

#include <set>

using barrow::test::keep_tied;
using barrow::test::labels;
using barrow::test::part_line;
using barrow::test::Shop;
using barrow::test::standing;
using Catch::Matchers::Contains;
using nlohmann::json;

TEST_CASE("fillers come from the box only for who asks, and to the penny", "[workshop][fillers]") {
    Shop shop;
    keep_tied(shop);
    // One leaflet leaves three quarters of a sheet, 0.60, and 1.6 m of a roll of 3.00.
    shop.done("make leaflet --make 1");
    REQUIRE(labels(shop, "RIB").size() == 1);
    const json plain = shop.json("cost tied --make 2");
    CHECK(plain.at("lines").size() == 1);
    const json asked = shop.json("cost tied --make 2 --fillers-from-box");
    REQUIRE(asked.at("lines").size() == 3);
    CHECK(part_line(asked, "tag").at("quantity") == 4);
    CHECK(part_line(asked, "tag").at("from_box") == 4);
    CHECK(part_line(asked, "tag").at("cost_new") == "0.00");
    // 600 of the 1,600 mm that are left, which carry 2.40.
    CHECK(part_line(asked, "bow").at("cost") == "0.90");
    CHECK(asked.at("warnings").empty());
    int boxed = 0;
    for (const auto& plan : asked.at("plan").at("materials")) {
        if (!plan.at("from_box")) continue;
        ++boxed;
        for (const auto& sheet : plan.at("sheets"))
            CHECK(sheet.at("source").at("kind") == "offcut");
    }
    CHECK(boxed == 2);
    const json before = standing(shop);
    const auto ribbon = labels(shop, "RIB");
    shop.done("make tied --make 2 --fillers-from-box");
    CHECK(shop.json("journal list").at("journals").size() == 3);
    // What is left of the ribbon keeps its label; the paper's remnants have new ones.
    CHECK(labels(shop, "RIB") == ribbon);
    for (const auto& offcut : shop.list("offcut list", "offcuts"))
        if (offcut.at("material") == "RIB") CHECK(offcut.at("value") == "1.50");
    const json value = shop.json("value");
    CHECK(value.at("difference") == "0.00");
    shop.sound();
    // Taken back, all is as it was.
    shop.done("reverse " + std::to_string(shop.entry()));
    CHECK(standing(shop) == before);
    shop.sound();
}

TEST_CASE("a batch reserves the offcuts its fillers come from, and gives them up again",
          "[workshop][fillers]") {
    Shop shop;
    keep_tied(shop);
    shop.done("make leaflet --make 1");
    const json before = standing(shop);
    const std::string sheet = shop.done("batch plan tied --make 1 --fillers-from-box");
    CHECK_THAT(sheet, Contains("MOSS  Moss paper: fillers from the offcut box")
                          && Contains("gives 2 tag 60 x 60 mm"));
    const auto moss = labels(shop, "MOSS");
    // What it took is not cut for another, nor may it be split.
    const json other = shop.json("plan tied --make 30 --fillers-from-box");
    std::set<std::string> free;
    for (const auto& plan : other.at("plan").at("materials"))
        for (const auto& one : plan.at("sheets"))
            if (one.at("source").at("kind") == "offcut")
                free.insert(one.at("source").at("code").get<std::string>());
    int reserved = 0;
    for (const std::string& label : moss) {
        const json yields = shop.json("offcut yields " + label);
        if (yields.at("reserved_for").empty()) continue;
        ++reserved;
        CHECK(yields.at("reserved_for") == json::array({2}));
        CHECK(free.count(label) == 0);
        CHECK_THAT(shop.done("offcut yields " + label), Contains("It is reserved for batch 2."));
        shop.refused(1, "offcut split " + label + " --into 60mmx60mm");
    }
    CHECK(reserved == 1);
    shop.done("batch abandon 2");
    CHECK(standing(shop) == before);
    // Cut otherwise than planned, and given up after all.
    shop.done("batch plan tied --make 1 --fillers-from-box");
    shop.done("batch cut 3 --remnant 1=none --spoiled MOSS=1");
    CHECK_THAT(shop.done("batch show 3"), Contains("tag"));
    shop.sound();
    shop.done("batch finish 3");
    shop.sound();
}

TEST_CASE("of fillers that the box cannot give it is said how many are missing",
          "[workshop][fillers]") {
    Shop shop;
    keep_tied(shop);
    const json cost = shop.json("cost tied --make 3 --fillers-from-box");
    CHECK(cost.at("lines").size() == 1);
    REQUIRE(cost.at("warnings").size() == 2);
    CHECK(cost.at("warnings").at(0).get<std::string>().find("tag of tied: 0 of 6 wanted are cut")
          == 0);
    CHECK_THAT(shop.done("cost tied --make 3 --fillers-from-box"), Contains("Note: bow of tied"));
    CHECK_THAT(shop.done("plan tied --make 3 --fillers-from-box"),
               Contains("nothing to cut") && Contains("Note: bow of tied"));
    CHECK_THAT(shop.done("plan tied --make 3"), !Contains("Note:"));
}
