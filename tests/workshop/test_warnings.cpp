#include "told.hpp"

#include <catch2/catch.hpp>

using barrow::test::Shop;
using barrow::test::stock_up;
using Catch::Matchers::Contains;

namespace {

/// A slip of paper whose block of two boards, 3 mm each, must pass a base of `base` mm. With
/// `boards` above two it does not.
void keep_slip(Shop& shop) {
    stock_up(shop);
    shop.design("[design]\ncode = \"slip\"\nname = \"Slip\"\n"
                "[parameters]\nboards = 2\nphotographs = 0\n"
                "[materials]\npaper = \"MOSS\"\n"
                "[cover]\nheight = \"100 mm\"\nboard = \"paper\"\nfold = \"1 mm\"\npanels = [\n"
                "{ name = \"front\", width = \"60 mm\" },\n"
                "{ name = \"base\", width = \"8 mm\", is = \"base\" },\n"
                "{ name = \"back\", width = \"60 mm\" },\n]\n"
                "[block]\nlayers = [\n"
                "{ name = \"boards\", each = \"3 mm\", number = \"boards\" },\n"
                "{ name = \"pictures\", each = \"1 mm\", number = \"photographs\", "
                "filling = true },\n]\n"
                "[[part]]\nname = \"cover\"\nmaterial = \"paper\"\nwidth = \"cover.length\"\n"
                "height = \"cover.height\"\n"
                "[[check]]\nthat = \"boards < 5\"\nsay = \"five boards are heavy\"\n");
}

} // namespace

TEST_CASE("what design show warns of is said by cost, plan, make and batch plan",
          "[workshop][warnings]") {
    Shop shop;
    keep_slip(shop);
    // 6 mm of boards and 3 mm of photographs on a base of 8 mm: it closes until it is filled.
    const std::string set = " --set photographs=3";
    const std::string words = "the panel base is 8 mm wide";
    CHECK_THAT(shop.done("cost slip" + set), Contains("Note: " + words));
    CHECK_THAT(shop.done("plan slip" + set), Contains("Note: " + words));
    CHECK_THAT(shop.done("batch plan slip --make 1" + set), Contains("Note: " + words));
    CHECK_THAT(shop.done("make slip --make 1" + set), Contains("Note: " + words));
    const auto document = shop.json("cost slip" + set);
    REQUIRE(document.at("warnings").size() == 1);
    CHECK_THAT(document.at("warnings").at(0).get<std::string>(), Contains(words));
    CHECK(document.at("stops").empty());
    CHECK(shop.json("cost slip").at("warnings").empty());
    shop.sound();
}

TEST_CASE("what cannot be put together is not booked unless that is asked for",
          "[workshop][warnings]") {
    Shop shop;
    keep_slip(shop);
    const std::string set = " --set boards=3"; // 9 mm on a base of 8 mm
    CHECK(shop.json("cost slip" + set).at("stops").size() == 1);
    CHECK_THAT(shop.done("cost slip" + set), Contains("Cannot be put together: the panel base"));
    for (const std::string command : {"make slip --make 1", "batch plan slip --make 1"}) {
        const auto entry = shop.entry();
        const std::string said = shop.refused(1, command + set);
        CHECK_THAT(said, Contains("it cannot be put together: the panel base is 8 mm wide"));
        CHECK_THAT(said, Contains("--anyway"));
        CHECK(shop.entry() == entry);
        shop.done(command + set + " --anyway");
        CHECK_THAT(shop.json("log --last 1").dump(), Contains("made anyway: the panel base"));
    }
    shop.sound();
}
