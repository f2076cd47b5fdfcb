#include "tied.hpp"

#include <catch2/catch.hpp>

#include <filesystem>

using barrow::test::keep_tied;
using barrow::test::labels;
using barrow::test::Shop;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

/// With one leaflet made: offcuts of paper and of ribbon are in the box.
void keep_tied_and_cut(Shop& shop) {
    keep_tied(shop);
    shop.done("make leaflet --make 1");
}

} // namespace

TEST_CASE("an offcut yields what it can be cut into", "[workshop][yields]") {
    // By hand: of 130 x 65 mm two tags of 60 x 60 mm can be cut, worth 0.80, and what is left is
    // too small to keep. Cards of 65 x 40 mm, worth 0.30, go three times into it: 0.90.
    Shop shop;
    keep_tied_and_cut(shop);
    shop.done("offcut split " + labels(shop, "MOSS").front() + " --into 130mmx65mm");
    const std::string label = labels(shop, "MOSS").back();
    const json only_tags = shop.json("offcut yields " + label);
    REQUIRE(only_tags.at("fillers").size() == 1);
    CHECK(only_tags.at("fillers").at(0).at("alone") == 2);
    CHECK(only_tags.at("fillers").at(0).at("chosen") == 2);
    CHECK(only_tags.at("worth") == "0.80");
    CHECK(only_tags.at("status") == "optimal");
    CHECK(only_tags.at("plans").at(0).at("pieces").size() == 2);
    CHECK(only_tags.at("plans").at(0).at("stock") == label);
    CHECK(only_tags.at("kept").empty());
    CHECK(only_tags.at("cost") == only_tags.at("value"));
    CHECK(only_tags.at("left_out").empty());
    shop.design("[design]\ncode = \"cards\"\nname = \"Cards\"\n[materials]\npaper = \"MOSS\"\n"
                "[[part]]\nname = \"card\"\nmaterial = \"paper\"\nwidth = \"9 cm\"\n"
                "height = \"9 cm\"\n[[filler]]\nname = \"small card\"\nmaterial = \"paper\"\n"
                "width = \"40 mm\"\nheight = \"65 mm\"\nworth = \"0.30\"\n");
    const json both = shop.json("offcut yields " + label);
    CHECK(both.at("worth") == "0.90");
    REQUIRE(both.at("fillers").size() == 2);
    for (const auto& filler : both.at("fillers"))
        CHECK(filler.at("chosen") == (filler.at("design") == "cards" ? 3 : 0));
    CHECK(shop.json("offcut yields " + label + " --design tied").at("worth") == "0.80");
    // One of each: a tag and a card.
    const json one = shop.json("offcut yields " + label + " --at-most 1");
    CHECK(one.at("worth") == "0.70");
    // A drawing.
    const auto folder = shop.folder() / "drawn";
    shop.done({"offcut", "yields", label, "--svg", folder.string()});
    CHECK(std::filesystem::exists(folder / (label + ".svg")));
    // Nothing of it happened.
    CHECK(labels(shop, "MOSS").back() == label);
    shop.sound();
}

TEST_CASE("an offcut that yields nothing says why, and a wrong one is refused",
          "[workshop][yields]") {
    Shop shop;
    keep_tied_and_cut(shop);
    const std::string moss = labels(shop, "MOSS").front();
    CHECK_THAT(shop.done("offcut yields " + moss + " --design leaflet"),
               Contains("leaflet has no filler that is cut from MOSS"));
    CHECK_THAT(shop.refused(3, "offcut yields " + moss + " --design tide"), Contains("tied"));
    shop.refused(3, "offcut yields 99-9");
    shop.refused(2, "offcut yields " + moss + " --at-most 0");
    shop.done("offcut split " + moss + " --into 50mmx50mm");
    CHECK_THAT(shop.refused(1, "offcut yields " + moss), Contains(moss));
    const std::string small = labels(shop, "MOSS").back();
    const json none = shop.json("offcut yields " + small);
    CHECK(none.at("fillers").at(0).at("alone") == 0);
    CHECK(none.at("status").is_null());
    CHECK(none.at("worth") == "0.00");
    CHECK_THAT(shop.done("offcut yields " + small), Contains("None of them fits into it"));
    // A ribbon has no sheet to read cuts from.
    CHECK_THAT(shop.done("offcut yields " + labels(shop, "RIB").front()),
               Contains("bow") && !Contains("Level cuts"));
}

TEST_CASE("of a length the remnant keeps its label, and an offcut in reserve says for whom",
          "[workshop][yields]") {
    Shop shop;
    keep_tied_and_cut(shop);
    const std::string ribbon = labels(shop, "RIB").front();
    // 1.6 m that carry 2.40: four bows leave 400 mm, 0.60 of it.
    const json four = shop.json("offcut yields " + ribbon + " --at-most 4");
    REQUIRE(four.at("kept").size() == 1);
    CHECK(four.at("kept").at(0).at("keeps_label") == true);
    CHECK(four.at("kept").at(0).at("value") == "0.60");
    CHECK(four.at("cost") == "1.80");
    CHECK(four.at("worth") == "4.00");
    CHECK(four.at("reserved_for").empty());
    shop.done("batch plan leaflet --make 1");
    CHECK(shop.json("offcut yields " + ribbon).at("reserved_for") == json::array({2}));
    CHECK_THAT(shop.done("offcut yields " + ribbon), Contains("It is reserved for batch 2."));
}

TEST_CASE("a design that cannot be worked out is left out and named", "[workshop][yields]") {
    Shop shop;
    keep_tied_and_cut(shop);
    // It could be worked out when it was brought in, while the thickness of the paper was known.
    shop.done("material change MOSS --caliper 0.2mm");
    shop.design("[design]\ncode = \"thick\"\nname = \"Thick\"\n[materials]\n"
                "paper = \"MOSS\"\n[[part]]\nname = \"leaf\"\nmaterial = \"paper\"\n"
                "width = \"10 cm + paper.caliper\"\nheight = \"9 cm\"\n"
                "[[filler]]\nname = \"slip\"\nmaterial = \"paper\"\n"
                "width = \"1 cm + paper.caliper\"\nheight = \"9 cm\"\nworth = \"0.10\"\n");
    const std::string moss = labels(shop, "MOSS").front();
    CHECK(shop.json("offcut yields " + moss).at("fillers").size() == 2);
    shop.done("material change MOSS --caliper -");
    const json without = shop.json("offcut yields " + moss);
    CHECK(without.at("fillers").size() == 1);
    CHECK(without.at("left_out") == json::array({"thick"}));
    CHECK_THAT(shop.done("offcut yields " + moss), Contains("Left out") && Contains("thick"));
    // Asked for by name, it says what is missing.
    CHECK_THAT(shop.refused(3, "offcut yields " + moss + " --design thick"), Contains("caliper"));
}
