#include "told.hpp"

#include <catch2/catch.hpp>

using barrow::test::Shop;
using barrow::test::stock_up;
using Catch::Matchers::Contains;

TEST_CASE("a length without a unit is refused wherever it is typed", "[workshop][typed]") {
    Shop shop;
    stock_up(shop);
    const auto refused = [&](const std::string& line) {
        const std::string said = shop.refused(3, line);
        CHECK_THAT(said, Contains("8 what?") || Contains("25 what?"));
        CHECK_THAT(said, Contains("25 mm") || Contains("8 mm"));
    };
    refused("material add PAD --name Pad --form sheet --width 8 --height 8");
    refused("material add PAD --name Pad --form sheet --width 8in --height 8in --keep-from 8x8");
    refused("material add PAD --name Pad --form sheet --width 8in --height 8in --trim-top 8");
    refused("material add PAD --name Pad --form sheet --width 8in --height 8in --caliper 8");
    refused("receive RIB --units 1 --length 25 --cost 3.00");
    refused("offcut found MOSS 8x8");
    const auto csv = [&](const std::string& text) {
        return shop.run({"material", "import", "-"}, text);
    };
    const std::string head = "code,name,form,width,height";
    CHECK(csv(head + "\nPAD,Pad,sheet,8,8\n").code == 3);
    CHECK_THAT(csv(head + "\nPAD,Pad,sheet,8,8\n").err, Contains("-:2, width: \"8\" has no unit"));
    // A column, or the shop, may name the unit.
    CHECK(csv(head + ",unit\nPAD,Pad,sheet,8,8,in\n").code == 0);
    CHECK_THAT(shop.done("material list"), Contains("203.2 x 203.2 mm"));
    CHECK(csv(head + ",unit\nPAD,Pad,sheet,8,8,furlong\n").code == 3);
    shop.done("settings bare-unit m");
    shop.done("receive RIB --units 1 --length 25 --cost 3.00");
    CHECK_THAT(shop.done("lots RIB"), Contains("25 m"));
    shop.done("settings bare-unit none");
    refused("receive RIB --units 1 --length 25 --cost 3.00");
    shop.done("material add SHEET --name S --form sheet --width 8in --height 8in --kerf 0");
    shop.sound();
}

TEST_CASE("money that can be read in two ways is refused", "[workshop][typed]") {
    Shop shop;
    stock_up(shop);
    CHECK_THAT(shop.refused(3, "receive ENV --units 5 --cost 12,500"),
               Contains("\"12,500\" can be read in two ways") && Contains("12500"));
    shop.done("receive ENV --units 5 --cost 1,250.00");
}

TEST_CASE("signs that steer a screen are kept out of the book", "[workshop][typed]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 1");
    const std::string label = shop.list("offcut list", "offcuts").at(0).at("code");
    const std::vector<std::string> signs = {"\x1B[2J",   "a\nb",     std::string("a\0b", 3),
                                            "\u202Eabc", "\u009B2J", "\x7F"};
    for (const std::string& sign : signs) {
        CAPTURE(sign);
        const std::vector<std::vector<std::string>> typed = {
            {"write-off", "ENV", "--units", "1", "--note", sign},
            {"make", "leaflet", "--make", "1", "--note", sign},
            {"journal", "change", "1-01", "--place", sign},
            {"offcut", "change", label, "--note", sign},
            {"stocktake", "start", "--place", sign},
            {"fair", "new", sign, "--on", "2027-05-01"},
            {"settings", "maker", sign},
            {"material", "change", "ENV", "--name", sign}};
        for (const auto& words : typed) {
            const auto said = shop.run(words);
            INFO(words[0] + " " + words[1]);
            CHECK(said.code == 3);
            CHECK_THAT(said.err, Contains("control character") || Contains("line break"));
        }
    }
    shop.done({"write-off", "ENV", "--units", "1", "--note", "wet: grün, 紙"});
}
