#include "design/support.hpp"

using namespace barrow::design;
using namespace barrow::design::test;
using barrow::base::Length;
using barrow::base::Rational;

namespace {

/// Front 100, base 20, back 100, second 20, flap 40; folds take up a board of 0.4 mm; the fold
/// before the flap closes outwards.
const std::string folder = R"([design]
code = "folder"
name = "Folder"
[cover]
height = "150 mm"
board = "board"
fold = "board.caliper"
panels = [
  { name = "front", width = "100 mm" },
  { name = "base", width = "20 mm", is = "base" },
  { name = "back", width = "100 mm" },
  { name = "second", width = "20 mm", is = "base", fold = { allowance = "1 mm", closes = "out" } },
  { name = "flap", width = "40 mm", is = "flap" },
]
[materials]
board = { code = "BOARD", caliper = "0.4 mm" }
paper = "PAPER"
[[part]]
name = "cover board"
material = "board"
width = "cover.length"
height = "cover.height"
[[part]]
name = "paper"
material = "paper"
width = "cover.length - 4 mm"
height = "cover.height - 4 mm"
from = "2 mm"
join = "folds"
overlap = "8 mm"
)";

Facts shop(Length width, Length height, std::optional<Grain> grain = std::nullopt,
           Turn turn = Turn::quarter) {
    Facts facts;
    for (const char* code : {"BOARD", "PAPER"}) {
        MaterialFacts material;
        material.caliper = mm("0.4");
        material.sheet = SheetFacts{width, height, grain, turn};
        facts.add(code, material);
    }
    return facts;
}

} // namespace

TEST_CASE("folds take up board, half on each side of the score", "[cover]") {
    const Worked worked = worked_from(folder);
    const WorkedCover& cover = *worked.cover;
    // By hand: 100 + 0.4 + 20 + 0.4 + 100 + 0.4 + 20 + 1 + 40 = 282.2 mm.
    CHECK(cover.length == mm("282.2"));
    CHECK(cover.finished == Length::mm(280));
    // Scores: 100 + 0.2; 100.4 + 20 + 0.2; 120.8 + 100 + 0.2; 221.2 + 20 + 0.5.
    CHECK(cover.folds == std::vector<Length>{mm("100.2"), mm("120.6"), mm("221"), mm("241.7")});
    CHECK(cover.panels[1].start == mm("100.4"));
    CHECK(value_of(worked, "cover.length") == "282.2 mm");
    // In the order to score: inwards from the left, then the one from the other side.
    REQUIRE(cover.scores.size() == 4);
    CHECK_FALSE(cover.scores[2].fold_out);
    CHECK(cover.scores[3].fold_out);
    CHECK(cover.scores[3].from_left == mm("241.7"));
    CHECK(cover.scores[3].from_right == mm("40.5"));
    CHECK(cover.scores[0].left == "front");
    CHECK(cover.scores[0].right == "base");
}

TEST_CASE("open and closed sizes follow from the panels and the board", "[cover]") {
    const WorkedCover cover = *worked_from(folder).cover;
    // Flap turned in: 100 + 20 + 100 + 20. Closed: a face and two bases' boards, 100.8 wide; a base
    // of 20 and three boards, since the flap lies over the front: 21.2 thick.
    CHECK(cover.open == Length::mm(240));
    CHECK(cover.closed_width == mm("100.8"));
    CHECK(cover.closed_thickness == mm("21.2"));
    // Without a board's thickness the closed size is not known, and said to be so.
    std::string text = replaced(folder, "{ code = \"BOARD\", caliper = \"0.4 mm\" }", "\"BOARD\"");
    text = replaced(text, "fold = \"board.caliper\"\n", "");
    const Worked unknown = worked_from(text);
    CHECK_FALSE(unknown.cover->closed_width);
    CHECK(any_holds(unknown.not_known, "board.caliper is not known"));
    CHECK(any_holds(unknown.not_known, "--caliper"));
}

TEST_CASE("the grain of the board runs along the spine where the sheet allows it", "[cover]") {
    const auto board = [](const Worked& worked) {
        return part_called(worked, "cover board").grain;
    };
    CHECK(board(worked_from(folder)) == Grain::height);
    // The sheet is 300 mm wide, grain along its height of 200: fits with the grain.
    CHECK(worked_from(folder, {}, shop(Length::mm(300), Length::mm(200), Grain::height))
              .warnings.empty());
    // Grain along the 300 mm: the piece would have to be turned, and 282.2 is more than 200.
    const Worked against =
        worked_from(folder, {}, shop(Length::mm(300), Length::mm(200), Grain::width));
    CHECK_FALSE(board(against).has_value());
    CHECK(any_holds(against.warnings, "its grain cannot run along its height"));
}

TEST_CASE("joins are where the design allows them", "[joins]") {
    const auto at = [](const std::string& text) {
        return part_called(worked_from(text), "paper").joining.at;
    };
    // The paper begins 2 mm in: each fold is 2 mm less.
    CHECK(at(folder) == std::vector<Length>{mm("98.2"), mm("118.6"), mm("219"), mm("239.7")});
    CHECK(at(replaced(folder, "join = \"folds\"", "join = \"base/back\""))
          == std::vector<Length>{mm("118.6")});
    CHECK(at(replaced(folder, "join = \"folds\"", "join = [\"front/base\", \"second/flap\"]"))
          == std::vector<Length>{mm("98.2"), mm("239.7")});
    CHECK(at(replaced(folder, "join = \"folds\"\noverlap = \"8 mm\"\n", "")).empty());
    const WorkedJoins anywhere =
        part_called(worked_from(replaced(folder, "join = \"folds\"",
                                         "join = \"anywhere\"\nleast_piece = \"5 cm\"\n"
                                         "no_join_on = [\"front\", \"flap\"]")),
                    "paper")
            .joining;
    CHECK(anywhere.anywhere);
    CHECK(anywhere.least_piece == Length::mm(50));
    REQUIRE(anywhere.never.size() == 2);
    // The front from 0 to 100 less 2; the flap from 242.2 to its end at 280.2, less 2.
    CHECK(anywhere.never[0].from == Length());
    CHECK(anywhere.never[0].to == Length::mm(98));
    CHECK(anywhere.never[1].from == mm("240.2"));
    CHECK(anywhere.never[1].to == mm("278.2"));
}

TEST_CASE("a piece larger than any sheet with no fold to join at is named, with what to do",
          "[joins]") {
    const Facts small = shop(Length::mm(200), Length::mm(200));
    const std::string text = replaced(folder, "join = \"folds\"\noverlap = \"8 mm\"\n", "");
    const std::string told = complaint(text, {}, small);
    CHECK_THAT(told, Catch::Contains("test.toml:") && Catch::Contains("278.2 x 146 mm")
                         && Catch::Contains("200 x 200 mm") && Catch::Contains("join = \"folds\""));
    // The board too: both are told. Joined at its folds the paper fits, so only the board is left.
    CHECK_THAT(told, Catch::Contains("282.2 x 150 mm"));
    CHECK_THAT(complaint(folder, {}, small),
               !Catch::Contains("278.2") && Catch::Contains("282.2 x 150 mm"));
    // Too high for the sheet: no join helps.
    CHECK_THAT(
        complaint(folder, {}, shop(Length::mm(400), Length::mm(140), std::nullopt, Turn::none)),
        Catch::Contains("larger sheet or a smaller journal"));
    try {
        worked_from(text, {}, small);
        FAIL("accepted");
    } catch (const barrow::base::Error& error) {
        CHECK(error.kind() == barrow::base::Kind::refused);
    }
}

TEST_CASE("glue follows from what is glued, tape from its edges", "[glue]") {
    std::string text = folder + R"(glue = { paste = ["area", "overlap"], tape = ["left", "right"] }
[[filler]]
name = "pocket"
material = "paper"
width = "50 mm"
height = "40 mm"
number = 2
worth = "0.25"
glue = { paste = ["left", "right", "bottom"] }
[adhesives]
paste = { material = "paste", spread = "70 ml/m2", edge = "5 mm" }
tape = { material = "tape", tape = true }
)";
    text = replaced(text, "paper = \"PAPER\"",
                    "paper = \"PAPER\"\npaste = \"PASTE\"\ntape = \"TAPE\"");
    const Worked worked = worked_from(text);
    // By hand: 0.2782 m x 0.146 m x 70 ml/m2 = 2.843204 ml.
    const WorkedPart& paste = part_called(worked, "paste");
    CHECK(paste.take == Take::spread);
    CHECK(paste.amount == Rational::of(2'843'204, 1'000'000));
    const WorkedPart& tape = worked.parts.at(2);
    CHECK(tape.take == Take::length);
    CHECK(tape.length == Length::mm(146));
    CHECK(tape.number == 2);
    // For each join 0.146 x 0.008 x 70 = 0.08176 ml; for each pocket a strip of 5 mm along
    // 40 + 40 + 50 mm: 0.13 x 0.005 x 70 = 0.0455 ml.
    REQUIRE(worked.extra_glue.size() == 2);
    CHECK(worked.extra_glue[0].what == ExtraGlue::For::join);
    CHECK(worked.extra_glue[0].part == 1);
    CHECK(worked.extra_glue[0].amount == Rational::of(8'176, 100'000));
    CHECK(worked.extra_glue[1].what == ExtraGlue::For::filler);
    CHECK(worked.extra_glue[1].amount == Rational::of(455, 10'000));
    REQUIRE(worked.fillers.size() == 1);
    CHECK(worked.fillers[0].number == 2);
    CHECK(worked.fillers[0].worth == Rational::of(1, 4));
}
