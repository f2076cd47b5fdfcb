#include "design/support.hpp"

using namespace barrow::design;
using namespace barrow::design::test;
using barrow::base::Length;

namespace {

const std::string family = R"([design]
code = "quay"
name = "Quay"
[parameters]
envelopes = { usual = 12, whole = true, least = 2, most = 40 }
wide = "9 cm"
[materials]
card = "CARD"
envelope = "ENV"
[[part]]
name = "card"
material = "card"
width = "wide + 2 cm"
height = "10 cm"
[[part]]
name = "envelopes"
material = "envelope"
number = "envelopes"
[[part]]
name = "tags"
material = "card"
width = "4 cm"
height = "6 cm"
number = "envelopes / 2"
[[operation]]
name = "fold"
minutes = 10
[variant.small]
parameters = { envelopes = 6 }
without = ["tags"]
[variant.large]
name = "Quay, the large one"
code = "grand-quay"
parameters = { envelopes = 20, wide = "11 cm" }
materials = { card = "CARD-THICK" }
part = [ { change = "tags", number = "envelopes" } ]
)";

const std::string child = R"([design]
code = "pier"
name = "Pier"
builds_on = "quay.large"
without = "envelopes"
[let]
half = "wide / 2"
[[part]]
change = "card"
height = "half"
[[operation]]
name = "fold"
minutes = 4
)";

DesignFinder shelf(std::map<std::string, std::string> texts) {
    return [texts](const std::string& code) -> std::optional<DesignText> {
        const auto found = texts.find(code);
        if (found == texts.end()) return std::nullopt;
        return DesignText{found->second, code + ".toml"};
    };
}

std::string told(const std::string& text, const DesignFinder& find) {
    try {
        read_design(text, "pier.toml", find);
        return "(accepted)";
    } catch (const barrow::base::Error& error) {
        return error.what();
    }
}

} // namespace

TEST_CASE("a family holds its variants whole, each with its changes", "[families]") {
    const Design design = read_design(family, "quay.toml");
    REQUIRE(design.variants.size() == 2);
    const Worked usual = work_out(design);
    CHECK(usual.parts.size() == 3);
    const Worked small = work_out(*find_variant(design, "quay.SMALL"));
    CHECK(small.code == "quay.small");
    CHECK(small.name == "Quay, small");
    CHECK(small.parts.size() == 2);
    CHECK(part_called(small, "envelopes").number == 6);
    const Worked large = work_out(*find_variant(design, "Grand-Quay"));
    CHECK(large.name == "Quay, the large one");
    CHECK(part_called(large, "card").width == Length::mm(130));
    CHECK(part_called(large, "card").material == "CARD-THICK");
    CHECK(part_called(large, "tags").number == 20);
    CHECK(part_called(large, "tags").width == Length::mm(40));
    CHECK(find_variant(design, "quay.middle") == nullptr);
    CHECK(split_code("quay.small").variant == "small");
    CHECK(split_code("quay").variant.empty());
}

TEST_CASE("a design builds on another, or on a variant of it", "[families]") {
    const Design pier = read_design(child, "pier.toml", shelf({{"quay", family}}));
    CHECK(pier.variants.empty());
    const Worked worked = work_out(pier);
    CHECK(worked.code == "pier");
    CHECK(worked.parts.size() == 2);
    // The large one's card is 11 cm + 2 cm wide; the child makes it half of 11 cm high.
    CHECK(part_called(worked, "card").width == Length::mm(130));
    CHECK(part_called(worked, "card").height == Length::mm(55));
    CHECK(part_called(worked, "card").material == "CARD-THICK");
    CHECK(worked.minutes_per_journal == barrow::base::Rational(4));
}

TEST_CASE("designs that build on each other in a circle, or on nothing, are refused",
          "[families]") {
    CHECK_THAT(told(child, {}), Catch::Contains("no design \"quay.large\" to build on")
                                    && Catch::Contains("pier.toml:4:"));
    const std::string circle =
        replaced(replaced(family, "name = \"Quay\"\n", "name = \"Quay\"\nbuilds_on = \"pier\"\n"),
                 "[materials]", "[materials]");
    CHECK_THAT(told(child, shelf({{"quay", circle}, {"pier", child}})),
               Catch::Contains("build on each other: pier -> quay -> pier"));
    CHECK_THAT(told(replaced(child, "quay.large", "quay.huge"), shelf({{"quay", family}})),
               Catch::Contains("quay has no variant \"huge\""));
    CHECK_THAT(told(replaced(child, "without = \"envelopes\"", "without = \"envelops\""),
                    shelf({{"quay", family}})),
               Catch::Contains("no \"envelops\" to leave out")
                   && Catch::Contains("did you mean envelopes"));
    CHECK_THAT(
        told(replaced(child, "change = \"card\"", "change = \"cart\""), shelf({{"quay", family}})),
        Catch::Contains("no part \"cart\" to change") && Catch::Contains("card"));
}

TEST_CASE("papers that go together are asked for by their collection", "[slots]") {
    std::string text =
        replaced(family, "card = \"CARD\"", R"(card = { collection = "Saltmarsh", same = "run" }
inside = { any_of = ["REED", "TIDE"], differs_from = "card", same = "piece" }
lining = { reverse_of = "card" }
scrap = { code = "REED", only = "offcuts" })");
    text = replaced(text, "[variant.large]\n", "[variant.large]\nabout = \"large\"\n");
    const Worked worked = worked_from(text);
    REQUIRE(worked.slots.size() == 5);
    CHECK(worked.slots[0].collection == "Saltmarsh");
    CHECK(worked.slots[0].material.empty());
    CHECK(worked.slots[0].same == Same::run);
    CHECK(part_called(worked, "card").material.empty());
    CHECK(worked.slots[1].any_of == std::vector<std::string>{"REED", "TIDE"});
    CHECK(worked.slots[1].differs_from == std::vector<std::string>{"card"});
    CHECK(worked.slots[1].same == Same::piece);
    CHECK(worked.slots[2].reverse_of == "card");
    CHECK(worked.slots[3].offcuts_only);
    // A maker can pin any choice; the reverse follows.
    const Worked pinned = worked_from(text, {{}, {{"card", "TIDE"}}});
    CHECK(pinned.slots[0].material == "TIDE");
    CHECK(pinned.slots[0].pinned);
    CHECK(pinned.slots[2].material == "TIDE");
    CHECK(part_called(pinned, "card").material == "TIDE");
    CHECK_THAT(complaint(text, {{}, {{"lining", "TIDE"}}}),
               Catch::Contains("the reverse of the paper of card"));
    // A paper with one face has no reverse.
    Facts facts;
    MaterialFacts plain_back;
    plain_back.two_faced = false;
    facts.add("TIDE", plain_back);
    CHECK_THAT(complaint(text, {{}, {{"card", "TIDE"}}}, facts), Catch::Contains("no second face"));
}

TEST_CASE("references that stand for nothing are named with the nearest", "[slots]") {
    const auto changed = [](const std::string& from, const std::string& to) {
        return complaint(replaced(family, from, to));
    };
    CHECK_THAT(changed("card = \"CARD\"", "card = { code = \"CARD\", collection = \"X\" }"),
               Catch::Contains("more than one way"));
    CHECK_THAT(changed("card = \"CARD\"", "card = { about = \"x\" }"),
               Catch::Contains("not said what fills it"));
    CHECK_THAT(changed("card = \"CARD\"", "card = { code = \"CARD\", differs_from = \"envelop\" }"),
               Catch::Contains("did you mean envelope"));
    CHECK_THAT(changed("card = \"CARD\"", "card = { reverse_of = \"card\" }"),
               Catch::Contains("itself the reverse"));
    CHECK_THAT(changed("card = \"CARD\"", "card = { code = \"CARD\", same = \"page\" }"),
               Catch::Contains("piece or journal or run"));
}
