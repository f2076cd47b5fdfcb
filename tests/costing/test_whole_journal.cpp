#include "costing/price/estimate.hpp"
#include "costing/price/price.hpp"
#include "design/file/design_file.hpp"

#include "costing/stock.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace barrow::costing;
using namespace barrow::test;
using barrow::base::Rational;
namespace base = barrow::base;
namespace design = barrow::design;
namespace layout = barrow::layout;

// One whole batch worked by hand: four journals of sixteen envelopes on a wire. The measures are
// common practice, no source: envelopes of 9 x 16.5 cm, 2 cm between an envelope and the edge or
// the next fold, a base fold of 3 cm and a second of 3 cm, a closing flap of 4 cm, board of just
// over 300 g/m2, sixteen envelopes on a 5/8 in wire that starts about 1 cm in from each end,
// patterned sheets of 12 x 12 in, a sheet of twelve cut-apart pictures. Prices are made up.
//
// Measures. Panel 20 + 90 + 20 = 130 mm; cover 130 + 30 + 130 + 30 + 40 = 360 mm long and 20 + 165
// + 20 = 205 mm high; folds at 130, 160, 290 and 320 mm.
//
// Board, sheets of 360 x 500 mm, six for 3.60. Two covers of 360 x 205 mm in a sheet, 360 x 90 mm
// left. Four covers take two sheets, 1.20. Each remnant is 90/500 of its sheet: 0.60 x 0.18 =
// 0.108, so 0.11. The covers pay 1.20 - 0.22 = 0.98; nothing is waste.
//
// Paper, 304.8 x 304.8 mm, three for 2.70 and then five for 5.00. 360 mm is too long: it is joined
// at the fold at 290 with 14.8 mm over it, which makes 304.8 mm, just a sheet; the rest is 360 -
// 290 = 70 mm. Upright, a sheet holds one of 304.8 x 205 mm, or four of 70 x 205 mm: four and one
// sheets, three old at 0.90 and two new at 1.00, 4.70. Each keeps 304.8 x 99.8 mm, 99.8/304.8 =
// 0.32743 of it: 0.2947, so 0.29, of an old one and 0.33 of a new one, together 3 x 0.29 + 2 x
// 0.33 = 1.53. The papers pay 4.70 - 1.53 = 3.17. On the sheet of 70s, 304.8 - 280 = 24.8 mm by
// 205 mm are waste: 24.8 x 205 / 304.8^2 = 0.05472 of 0.90 or 1.00, 0.05. (What remnants
// were rounded down by is borne by the papers, but is no waste.)
//
// Envelopes, a hundred for 12.46: 64 cost 7.9744, so 7.97.
//
// Wire: (165 - 2 x 10) / 12.7 = 11.4 spaces, so 12 loops. Strips of 23 loops, ten for 8.76: a strip
// gives one wire; four cost 3.504, so 3.50: two at 0.88, two at 0.87. Each keeps 11 loops: 0.4209
// and 0.4161, 0.42 each. The wires pay 3.50 - 1.68 = 1.82.
//
// Pictures of 3 x 4 in, six a journal: 24 are two sheets of twelve, at 3.80 for four: 1.90.
// Ribbon 75 cm, four are 3 m of a roll of 10 m for 3.20; 7 m are kept, 2.24; 0.96.
// Clasps, twelve for 7.20: four cost 2.40.
// Glue at 70 ml/m2 on both sides: 2 x 0.36 x 0.205 x 70 = 10.332 ml, 41.328 ml for four; of 500 ml
// for 7.21 that is 0.5959, so 0.60.
//
// Materials 0.98 + 3.17 + 7.97 + 1.82 + 1.90 + 0.96 + 2.40 + 0.60 = 19.80.
// Labour 4 x 59 + 20 = 256 minutes at 12.50: 53.33. Overheads 15 % of 73.13: 10.9695, so 10.97.
// Together 84.10; one journal 21.025, so 21.03. A margin of 45 % asks for 21.03 / 0.55 = 38.2364,
// so 38.24 and, in steps of 0.50, 38.50: 17.47 is hers, 45.4 % of the price, 83.1 % of the cost.
namespace {

constexpr const char* journal = R"([design]
code = "wired"
name = "Wired envelope journal"

[parameters]
envelopes = { usual = 16, whole = true }
wide  = "9 cm"
long  = "16.5 cm"
clear = "2 cm"

[let]
panel = "wide + 2 * clear"

[cover]
height = "long + 2 * clear"
panels = [ { name = "front", width = "panel" }, { name = "base", width = "3 cm" },
           { name = "back", width = "panel" }, { name = "second_base", width = "3 cm" },
           { name = "flap", width = "4 cm" } ]

[materials]
board = "BOARD"
paper = "PAPER"
envelope = "ENV"
wire = "WIRE"
pictures = "PICS"
ribbon = "RIBBON"
clasp = "CLASP"
glue = "GLUE"

[[part]]
name = "cover board"
material = "board"
width = "cover.length"
height = "cover.height"

[[part]]
name = "paper"
material = "paper"
width = "cover.length"
height = "cover.height"
join = "folds"
overlap = "14.8 mm"

[[part]]
name = "envelopes"
material = "envelope"
number = "envelopes"

[[part]]
name = "wire"
material = "wire"
loops = "round_down((long - 2 * 1 cm) / (1in / 2), 1) + 1"

[[part]]
name = "pictures"
material = "pictures"
width = "3in"
height = "4in"
number = 6

[[part]]
name = "ribbon"
material = "ribbon"
length = "75 cm"

[[part]]
name = "clasp"
material = "clasp"
number = 1

[[part]]
name = "glue"
material = "glue"
amount = "2 * cover.length * cover.height * 70 ml / 1 m2"

[[operation]]
name = "make it"
minutes = 59

[[operation]]
name = "lay out the bench"
minutes = 20
per = "batch"
)";

std::vector<ShelfMaterial> shelf() {
    const auto useful = [](std::int64_t shorter, std::int64_t longer) {
        return base::StockSize{Length::mm(shorter).units(), Length::mm(longer).units()};
    };
    ShelfMaterial board = sheets("BOARD", Length::mm(360), Length::mm(500), {{6, 360}});
    board.turn = design::Turn::none;
    board.least_useful = useful(80, 120);
    ShelfMaterial paper =
        sheets("PAPER", Length::inches(12), Length::inches(12), {{3, 270}, {5, 500}});
    paper.turn = design::Turn::none;
    paper.least_useful = useful(60, 150);
    ShelfMaterial pictures = sheets("PICS", Length::inches(12), Length::inches(12), {{4, 380}});
    pictures.turn = design::Turn::none;
    ShelfMaterial wire = strips("WIRE", 23, {{10, 876}});
    wire.least_useful = {0, 5};
    ShelfMaterial ribbon = rolls("RIBBON", Length::mm(10'000), {{1, 320}});
    ribbon.least_useful = {0, Length::mm(250).units()};
    return {board,    paper,  counted("ENV", {{100, 1246}}), wire,
            pictures, ribbon, counted("CLASP", {{12, 720}}), poured("GLUE", {{500'000, 721}})};
}

Estimate batch() {
    static const std::vector<ShelfMaterial> kept = shelf();
    Run run;
    run.design = work_out(design::read_design(journal, "wired.toml"));
    run.journals = 4;
    const Rates rates{pence(1250), Rational::of(15, 100), Rates::Base::materials_and_labour};
    CutOptions options;
    options.layout.effort = layout::Effort::normal;
    return barrow::costing::estimate({run}, kept, rates, options);
}

const Line& line(const Estimate& estimate, const std::string& part) {
    const auto found = std::find_if(estimate.lines.begin(), estimate.lines.end(),
                                    [&](const Line& own) { return own.part == part; });
    REQUIRE(found != estimate.lines.end());
    return *found;
}

std::vector<std::int64_t> kept_values(const Estimate& estimate, const std::string& material) {
    std::vector<std::int64_t> values;
    for (const CutPlan& plan : estimate.cuts) {
        if (plan.material->code != material) continue;
        for (const SheetUse& sheet : plan.sheets)
            for (const Kept& kept : sheet.kept) values.push_back(kept.value.minor());
    }
    std::sort(values.begin(), values.end());
    return values;
}

} // namespace

TEST_CASE("a whole journal costs what it costs by hand, part by part", "[whole]") {
    const Estimate estimate = batch();
    CHECK(estimate.shortages.empty());
    CHECK(estimate.warnings.empty());
    const auto cost = [&](const char* part) { return line(estimate, part).cost.minor(); };
    CHECK(cost("cover board") == 98);
    CHECK(cost("paper") == 317);
    CHECK(cost("envelopes") == 797);
    CHECK(cost("wire") == 182);
    CHECK(cost("pictures") == 190);
    CHECK(cost("ribbon") == 96);
    CHECK(cost("clasp") == 240);
    CHECK(cost("glue") == 60);
    CHECK(line(estimate, "cover board").waste_cost.is_zero());
    CHECK(line(estimate, "paper").waste_cost.minor() == 5);
    CHECK(line(estimate, "paper").joined_from == 2);
    CHECK(line(estimate, "paper").quantity == 8);
    CHECK(line(estimate, "wire").quantity == 48);
    CHECK(line(estimate, "ribbon").quantity == Length::mm(3000).units());
    CHECK(line(estimate, "glue").quantity == 41'328);
}

TEST_CASE("a whole journal's offcuts are those found by hand, with their values", "[whole]") {
    const Estimate estimate = batch();
    using Values = std::vector<std::int64_t>;
    CHECK(kept_values(estimate, "BOARD") == Values{11, 11});
    CHECK(kept_values(estimate, "PAPER") == Values{29, 29, 29, 33, 33});
    CHECK(kept_values(estimate, "WIRE") == Values{42, 42, 42, 42});
    CHECK(kept_values(estimate, "RIBBON") == Values{224});
    CHECK(kept_values(estimate, "PICS").empty());
    for (const CutPlan& plan : estimate.cuts) {
        if (plan.material->code != "PAPER") continue;
        for (const SheetUse& sheet : plan.sheets) {
            REQUIRE(sheet.kept.size() == 1);
            CHECK(sheet.kept[0].place.width == Length::inches(12).units());
            CHECK(sheet.kept[0].place.height
                  == Length::inches(12).units() - Length::mm(205).units());
        }
    }
}

TEST_CASE("a whole journal's labour, overheads and price are those found by hand", "[whole]") {
    const Estimate estimate = batch();
    const RunTotals& totals = estimate.runs.at(0);
    CHECK(totals.materials == pence(1980));
    CHECK(totals.minutes == Rational(256));
    CHECK(totals.labour == pence(5333));
    CHECK(totals.overheads == pence(1097));
    CHECK(totals.total == pence(8410));
    CHECK(totals.unit_cost == pence(2103));
    const Price price = price_for(totals.unit_cost, Rational::of(45, 100), {pence(50), pence(0)});
    CHECK(price.exact == pence(3824));
    CHECK(price.asked == pence(3850));
    CHECK(price.profit == pence(1747));
    CHECK(to_decimal(price.margin * Rational(100), 1) == "45.4");
    CHECK(to_decimal(price.markup * Rational(100), 1) == "83.1");
}
