#include "book/shop.hpp"

#include <catch2/catch.hpp>

using barrow::test::Shop;
using barrow::test::stock_up;
using Catch::Matchers::Contains;

namespace {

nlohmann::json material(Shop& shop, const std::string& code) {
    for (const auto& line : shop.list("stock", "materials"))
        if (line.at("code") == code) return line;
    return nullptr;
}

std::string value(Shop& shop, const char* where) {
    return shop.json("value").at(where);
}

} // namespace

TEST_CASE("what comes back out of a journal bears what the batch paid for it", "[apart]") {
    // Worked by hand: four leaflets take one sheet (0.80), 1.6 m of ribbon (2.40), twelve
    // envelopes (1.20) and 8 ml of glue (0.32). One gives back two envelopes (0.20), its ribbon
    // (400 mm, 0.60) and its cover (a quarter of the sheet, 0.20): 1.00 of its 1.18.
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 4");
    const auto before = material(shop, "ENV");
    const auto said = shop.done({"journal", "apart", "1-02", "--get", "ENV=2", "--get", "RIB=40cm",
                                 "--get", "MOSS=150mm x 100mm", "--note", "cover torn"});
    CHECK_THAT(said, Contains("2 pieces") && Contains("0.20") && Contains("0.60")
                         && Contains("0.18 GBP"));
    CHECK(material(shop, "ENV").at("on_hand") == before.at("on_hand").get<int>() + 2);
    CHECK(material(shop, "MOSS").at("offcuts") == 1);
    CHECK(material(shop, "MOSS").at("offcut_value") == "0.20");
    CHECK(value(shop, "written_off") == "0.18");
    CHECK(value(shop, "in_journals") == "3.54");
    CHECK(shop.json("journal list").at("journals").size() == 3);
    shop.sound();

    shop.done("reverse " + std::to_string(shop.entry()));
    CHECK(value(shop, "written_off") == "0.00");
    CHECK(value(shop, "in_journals") == "4.72");
    CHECK(material(shop, "MOSS").at("offcuts") == 0);
    CHECK(material(shop, "ENV") == before);
    shop.sound();
}

TEST_CASE("glue comes back as an amount and paper as whole sheets when it was one", "[apart]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 4");
    shop.done({"journal", "apart", "1-01", "--get", "GLUE=1.5 ml", "--get", "MOSS=1"});
    CHECK(material(shop, "GLUE").at("on_hand") == 93.5);
    CHECK(material(shop, "MOSS").at("on_hand") == 10);
    // The sheet cost 0.80 and the glue 0.06: less than the journal's 1.18.
    CHECK(value(shop, "written_off") == "0.32");
    shop.sound();
}

TEST_CASE("parts bear no more than the journal they came out of", "[apart]") {
    // Twelve envelopes cost 1.20, a leaflet 1.18: the two pence are not made up from nothing.
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 4");
    shop.done("journal apart 1-01 --get ENV=12");
    CHECK(value(shop, "written_off") == "0.00");
    CHECK(value(shop, "in_journals") == "3.54");
    shop.sound();
    // Nothing of them is left for the others of the batch.
    CHECK_THAT(shop.refused(1, "journal apart 1-02 --get ENV=1"), Contains("ENV"));
    shop.done("reverse " + std::to_string(shop.entry()));
    shop.done("journal apart 1-02 --get ENV=1");
    shop.sound();
}

TEST_CASE("no more comes back than the batch took, over all its journals", "[apart]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 2"); // six envelopes
    shop.done("make leaflet --make 3"); // nine, of another batch
    shop.done("journal apart 1-01 --get ENV=4");
    CHECK_THAT(shop.refused(1, "journal apart 1-02 --get ENV=3"), Contains("ENV"));
    shop.done("journal apart 1-02 --get ENV=2");
    shop.done("journal apart 2-01 --get ENV=9");
    shop.sound();
}

TEST_CASE("taking apart is refused when it cannot be so", "[apart]") {
    Shop shop;
    stock_up(shop);
    shop.import("material import", "code,name,form\nBEAD,Glass bead,count\n");
    shop.done("make leaflet --make 1");
    CHECK_THAT(shop.refused(1, "journal apart 1-01 --get BEAD=1"), Contains("BEAD"));
    CHECK_THAT(shop.refused(3, "journal apart 1-01 --get BAED=1"), Contains("BEAD"));
    CHECK_THAT(shop.refused(3, "journal apart 1-01 --get ENV=none"), Contains("--get ENV"));
    CHECK_THAT(shop.refused(3, "journal apart 1-01 --get ENV=0"), Contains("--get ENV"));
    CHECK_THAT(shop.refused(3, "journal apart 1-01 --get MOSS=150mm"), Contains("MOSS"));
    CHECK_THAT(shop.refused(1, "journal apart 1-01 --get RIB=3m"), Contains("RIB"));
    CHECK_THAT(shop.refused(2, "journal apart 1-01 --get ENV"), Contains("--get"));
    CHECK_THAT(shop.refused(2, "journal apart 1-01"), Contains("--get"));
    CHECK(shop.json("journal list").at("journals").size() == 1);
    shop.sound();
}

TEST_CASE("taking apart cannot be reversed once what came back has been used", "[apart]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 4");
    shop.done({"journal", "apart", "1-01", "--get", "MOSS=150mm x 100mm"});
    const auto apart = std::to_string(shop.entry());
    const auto box = shop.json("offcut list").at("offcuts");
    std::string label;
    for (const auto& offcut : box)
        if (offcut.at("material") == "MOSS") label = offcut.at("code");
    shop.done({"write-off", "--offcut", label, "--note", "wet"});
    const auto wet = std::to_string(shop.entry());
    CHECK_THAT(shop.refused(1, "reverse " + apart), Contains(label) && Contains(wet));
    shop.done("reverse " + wet);
    shop.done("reverse " + apart);
    CHECK(shop.json("journal list").at("journals").size() == 4);
    shop.sound();
}

TEST_CASE("free material comes back worth nothing, and not twice", "[apart]") {
    Shop shop;
    stock_up(shop);
    shop.import("material import", "code,name,form\nTAG,Paper tag,count\n");
    shop.done("receive TAG --units 2 --cost 0");
    shop.design("[design]\ncode = \"slip\"\nname = \"Slip\"\n[materials]\ntag = \"TAG\"\n"
                "[[part]]\nname = \"tag\"\nmaterial = \"tag\"\nnumber = \"1\"\n");
    shop.done("make slip --make 2");
    shop.done("journal apart 1-01 --get TAG=2");
    shop.sound();
    CHECK(material(shop, "TAG").at("on_hand") == 2);
    shop.refused(1, "journal apart 1-02 --get TAG=1");
}
