#include "design/support.hpp"

#include <fstream>
#include <sstream>

using namespace barrow::design;
using namespace barrow::design::test;
using barrow::base::Length;
using barrow::base::Rational;

namespace {

std::string file_text(const std::string& path) {
    std::ifstream file(std::string(BARROW_SOURCE_DIR) + "/" + path);
    REQUIRE(file);
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

/// The blocks of a Markdown page between ```toml and ```.
std::vector<std::string> toml_blocks(const std::string& page) {
    std::vector<std::string> blocks;
    std::istringstream lines(page);
    bool inside = false;
    for (std::string line; std::getline(lines, line);) {
        if (line == "```toml") {
            inside = true;
            blocks.emplace_back();
        } else if (line == "```") {
            inside = false;
        } else if (inside) {
            blocks.back() += line + "\n";
        }
    }
    return blocks;
}

} // namespace

TEST_CASE("every base and every calculator works out as it stands, without a warning", "[ready]") {
    for (const auto list : {ready_bases(), calculators()})
        for (const ReadyDesign& ready : list) {
            INFO(ready.name);
            const Worked worked = work_out(read_design(ready.text, ready.name));
            CHECK(worked.warnings.empty());
            CHECK(worked.not_known.empty());
            CHECK_FALSE(worked.parts.empty());
        }
}

TEST_CASE("a whole journal on a wire, worked by hand", "[ready]") {
    // The base "wire" as it stands: 12 envelopes of 90 x 165 mm, paper of 0.12 mm; 20 mm clear
    // round them; bases of 30 mm, a flap of 40 mm; board of 0.4 mm; wire of 5/8 in at 2:1.
    //
    // Cover    panel 90 + 2 x 20 = 130 mm; height 165 + 2 x 20 = 205 mm.
    //          Four folds take up a board each: 130 + 30 + 130 + 30 + 40 + 4 x 0.4 = 361.6 mm.
    //          Scores, half a board behind each panel's end: 130.2; 160.6; 291.0; 321.4 mm.
    //          Closed: a panel and two boards, 130.8 mm; a base and three boards, 31.2 mm thick.
    // Papers   2 mm of board shows all round: 357.6 x 201 mm, joined at the folds, 2 mm less each:
    //          128.2; 158.6; 289; 319.4 mm. On the outside never on the front: all are on its
    //          border or beyond it.
    // Block    An envelope is 2 walls + flap + seam = 4 plies of 0.12 mm, 0.48 mm; 12 are 5.76 mm.
    //          12 photographs of 0.25 mm are 3 mm. With a tenth for air: 5.76 x 1.1 = 6.336 mm
    //          empty, 8.76 x 1.1 = 9.636 mm filled. The bases (30 mm) and the wire (15.875 mm, and
    //          9.636 + 3.175 = 12.811 wanted) hold it; the smallest wire that does is 9/16 in.
    // Wire     (165 - 2 x 8) / 12.7 = 11.7: 12 loops; from the first to the last 11 x 12.7 = 139.7;
    //          the first (165 - 139.7) / 2 = 12.65 mm from the end. Holes of 6 mm, 3/8 in from the
    //          edge.
    // Paste    both papers all over: 2 x 0.3576 x 0.201 m2 x 70 ml = 10.0628640 ml; each join
    //          0.201 x 0.008 x 70 = 0.11256 ml more.
    // Work     9 + 22 + 6 + 12 / 2 = 43 minutes, and 20 for the batch.
    const Worked worked = work_out(read_design(find_ready(ready_bases(), "wire")->text, "wire"));
    const WorkedCover& cover = worked.cover.value();
    CHECK(cover.length == mm("361.6"));
    CHECK(cover.height == mm("205"));
    CHECK(cover.folds == std::vector<Length>{mm("130.2"), mm("160.6"), mm("291"), mm("321.4")});
    CHECK(cover.closed_width == mm("130.8"));
    CHECK(cover.closed_thickness == mm("31.2"));
    const std::vector<Length> joins = {mm("128.2"), mm("158.6"), mm("289"), mm("319.4")};
    for (const char* name : {"outside paper", "inside paper"}) {
        const WorkedPart& paper = part_called(worked, name);
        CHECK(paper.width == mm("357.6"));
        CHECK(paper.height == mm("201"));
        CHECK(paper.joining.at == joins);
        CHECK(paper.joining.overlap == mm("8"));
    }
    CHECK(worked.block->empty == mm("6.336"));
    CHECK(worked.block->thickness == mm("9.636"));
    const WorkedBinding& wire = worked.binding.value();
    CHECK(wire.marks.size() == 12);
    CHECK(wire.marks.front() == mm("12.65"));
    CHECK(wire.hole == mm("6"));
    CHECK(wire.setback == mm("9.525"));
    CHECK(number_of(wire, "size")->number == Rational::of(9, 16) * Rational::of(127, 5));
    CHECK(wire.panel == "base");
    CHECK(part_called(worked, "binding wire").loops == 12);
    CHECK(part_called(worked, "envelopes").number == 12);
    CHECK(part_called(worked, "paste").amount == Rational::of(10'062'864, 1'000'000));
    CHECK(worked.extra_glue.at(0).amount == Rational::of(11'256, 100'000));
    CHECK(worked.minutes_per_journal == Rational(43));
    CHECK(worked.minutes_per_batch == Rational(20));
    CHECK(worked.warnings.empty());
}

TEST_CASE("a journal that will not close is warned of", "[ready]") {
    const Design design = read_design(find_ready(ready_bases(), "wire")->text, "wire");
    // 40 envelopes are 19.2 mm, with 12 photographs and a tenth 24.42 mm: the wire is too small.
    const Worked thick = work_out(design, {{{"envelopes", "40"}}, {}});
    CHECK(any_holds(thick.warnings, "the wire is 15.875 mm across", Severity::stops));
    CHECK_FALSE(any_holds(thick.warnings, "will not close"));
    // The base of this journal grows with its block; one that does not gapes.
    CHECK_FALSE(any_holds(work_out(design, {{{"envelopes", "40"}, {"base", "2 cm"}}, {}}).warnings,
                          "the panel base"));
    std::string text(find_ready(ready_bases(), "wire")->text);
    const std::string grows = "width = \"base_wide\"";
    text.replace(text.find(grows), grows.size(), "width = \"base\"");
    const Design stiff = read_design(text, "wire");
    const Worked gaping = work_out(stiff, {{{"envelopes", "40"}, {"base", "2 cm"}}, {}});
    // 19.2 mm of envelopes and a tenth for air are 21.12 mm: too much for the base before it is
    // full.
    CHECK(any_holds(gaping.warnings, "the panel base is 20 mm wide", Severity::stops));
    const Worked full = work_out(stiff, {{{"envelopes", "36"}, {"base", "2 cm"}}, {}});
    CHECK(any_holds(full.warnings, "the panel base is 20 mm wide", Severity::mind));
}

TEST_CASE("sections sewn through a spine have a row of stations each", "[ready]") {
    // Four sections of four folded sheets: 32 leaves of 0.14 mm and 15 % for air are 5.152 mm, so
    // the spine is 7 mm wide, from 123 + 0.2 mm on. Each section has a quarter of it, and its row
    // in the middle of that: 7/8 mm, and 7/4 mm from one row to the next.
    const Worked worked = work_out(read_design(find_ready(ready_bases(), "sewn")->text, "sewn"));
    const WorkedPanel& spine = worked.cover->panels.at(1);
    CHECK(spine.width == mm("7"));
    const auto& rows = worked.binding->panel_rows;
    REQUIRE(rows.size() == 4);
    for (std::size_t i = 0; i < 4; ++i)
        CHECK(rows[i] - spine.start
              == Length::of_units(7'000 + 14'000 * static_cast<std::int64_t>(i)));
    // Loops of wire stand in one row, up the middle.
    const Worked wire = work_out(read_design(find_ready(ready_bases(), "wire")->text, "wire"));
    CHECK(wire.binding->panel_rows.size() == 1);
}

TEST_CASE("a design of one's own is begun from a base", "[ready]") {
    const ReadyDesign& base = *find_ready(ready_bases(), "square");
    const std::string text =
        own_design(base, "pebbles", "Pebbles \"small\"", {{"side", "11 cm"}, {"envelopes", "8"}});
    const Design design = read_design(text, "pebbles.toml");
    CHECK(design.code == "pebbles");
    CHECK(design.name == "Pebbles \"small\"");
    const Worked worked = work_out(design);
    CHECK(part_called(worked, "envelopes").number == 8);
    CHECK(worked.cover->height == Length::mm(120));
    CHECK_THAT(text, Catch::Contains("about = \"side of an envelope\""));
    const std::string filled = own_design(base, "pebbles", "P", {}, {{"board", "BRD-A3"}});
    CHECK_THAT(filled, Catch::Contains("board    = { code = \"BRD-A3\", caliper"));
    CHECK_THROWS_WITH(own_design(base, "pebbles", "P", {}, {{"bord", "BRD-A3"}}),
                      Catch::Contains("board"));
    CHECK_THROWS_WITH(own_design(base, "pebbles", "P", {{"sides", "1 cm"}}),
                      Catch::Contains("did you mean side"));
    CHECK_THROWS_WITH(own_design(base, "pebbles", "P", {{"envelopes", "40"}}),
                      Catch::Contains("above the most"));
    CHECK_THROWS_WITH(own_design(base, "my pebbles", "P"), Catch::Contains("cannot be a code"));
}

TEST_CASE("the designs of the demo work out", "[ready]") {
    for (const char* name :
         {"quayside", "fenlight", "pebble", "heronwood", "loomgate", "scrapling"}) {
        INFO(name);
        const Design design =
            read_design(file_text(std::string("demo-data/designs/") + name + ".toml"), name);
        CHECK(design.code == name);
        Facts facts;
        for (const auto& [code, caliper] : std::map<std::string, const char*>{{"BOARD-310", "0.42"},
                                                                              {"CLOTH-TEAL", "0.3"},
                                                                              {"PAGE-A3", "0.16"},
                                                                              {"ENV-KRAFT", "0.12"},
                                                                              {"WIRE-58", "1"}}) {
            MaterialFacts known;
            known.caliper = mm(caliper);
            known.loops_per_inch = Rational(2);
            known.diameter = mm("15.875");
            facts.add(code, known);
        }
        MaterialFacts glue;
        glue.spread = Rational(70);
        facts.add("GLUE-PVA", glue);
        CHECK(work_out(design, {}, facts).warnings.empty());
        for (const Design& variant : design.variants)
            CHECK(work_out(variant, {}, facts).warnings.empty());
    }
}

TEST_CASE("every example of the page on design files is read", "[guide]") {
    const auto blocks = toml_blocks(file_text("src/design/design-file.md"));
    REQUIRE(blocks.size() >= 10);
    // A block that is not a whole file is a piece of one: put into a small design that has what the
    // page's examples name.
    for (const std::string& block : blocks) {
        INFO(block);
        if (block.find("[design]") != std::string::npos) {
            CHECK_NOTHROW(work_out(read_design(block, "design-file.md")));
            continue;
        }
        std::string text = file_text("tests/design/guide_frame.toml");
        const auto table = block.substr(0, block.find('\n'));
        const auto begin = text.find("\n" + table + "\n");
        // A table the frame has already is the one the example shows: it takes its place.
        if (table.rfind("[[", 0) != 0 && begin != std::string::npos) {
            const auto end = text.find("\n[", begin + 1);
            text.erase(begin + 1, end - begin);
        }
        CHECK(complaint(text + "\n" + block) == "(accepted)");
    }
}

TEST_CASE("the page on design files names every key there is", "[guide]") {
    const std::string page = file_text("src/design/design-file.md");
    for (const FactKind& kind : fact_kinds()) {
        INFO(kind.name);
        CHECK(page.find("`" + std::string(kind.name) + "`") != std::string::npos);
    }
    for (const char* key :
         {"usual",  "about",   "least",      "most",    "whole",      "height",      "board",
          "fold",   "panels",  "is",         "closes",  "allowance",  "give",        "layers",
          "number", "each",    "envelope",   "walls",   "seams",      "filling",     "kind",
          "panel",  "code",    "collection", "any_of",  "reverse_of", "same",        "differs_from",
          "only",   "spread",  "edge",       "tape",    "width",      "length",      "loops",
          "amount", "turn",    "grain",      "join",    "overlap",    "least_piece", "no_join_on",
          "from",   "glue",    "worth",      "minutes", "per",        "that",        "say",
          "change", "without", "builds_on",  "variant"}) {
        INFO(key);
        const bool named = page.find("`" + std::string(key) + "`") != std::string::npos
                           || page.find("`" + std::string(key) + " = ") != std::string::npos;
        CHECK(named);
    }
}
