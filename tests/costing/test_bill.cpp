#include "base/error.hpp"
#include "costing/arrange/arrange.hpp"
#include "costing/bill/bill.hpp"
#include "design/file/design_file.hpp"

#include "costing/stock.hpp"
#include "design/sample.hpp"

#include <catch2/catch.hpp>

using namespace barrow::costing;
using namespace barrow::test;
using barrow::base::Error;
using barrow::base::Kind;
using barrow::design::Grain;
using barrow::design::Take;
using barrow::design::Turn;

namespace {

ShelfMaterial board() {
    return sheets("BOARD", Length::mm(700), Length::mm(500), {{5, 500}});
}

Bill bill_of(std::vector<barrow::design::WorkedPart> parts, const std::vector<ShelfMaterial>& shelf,
             std::int64_t journals = 1) {
    const std::vector<Run> runs = {run_of(std::move(parts), journals)};
    return make_bill(runs, shelf, arrange(runs, shelf, barrow::layout::Effort::quick));
}

std::string complaint(std::vector<barrow::design::WorkedPart> parts,
                      const std::vector<ShelfMaterial>& shelf, Kind kind = Kind::bad_input) {
    try {
        bill_of(std::move(parts), shelf);
        return "(accepted)";
    } catch (const Error& error) {
        CHECK(error.kind() == kind);
        return error.what();
    }
}

std::int64_t mm(std::int64_t units) {
    return units / Length::units_per_mm;
}

} // namespace

TEST_CASE("a bill has every part of every journal under its material", "[bill]") {
    // By hand, three of the sample journal: board 360 x 205; its paper 360 x 205 from sheets of
    // 12 x 12 in, joined at the fold at 290 with 8 mm over it: 298 and 70; 16 envelopes; loops at
    // (205 - 20) / 12.7 = 14.57, so 14 + 1; ribbon 600 mm; glue 0.36 x 0.205 x 60 = 4.428 ml.
    const std::vector<ShelfMaterial> shelf = {
        sheets("BOARD-300", Length::mm(700), Length::mm(500), {}),
        sheets("FERN-12", Length::inches(12), Length::inches(12), {}),
        counted("ENV-90", {}),
        strips("WIRE-58", 23, {}),
        poured("GLUE", {}),
        rolls("RIB-10", Length::mm(10000), {}),
    };
    Run run;
    run.design = work_out(barrow::design::read_design(sample_design, "quay.toml"));
    run.journals = 3;
    const std::vector<Run> runs = {run};
    const Bill bill = make_bill(runs, shelf, arrange(runs, shelf, barrow::layout::Effort::quick));
    REQUIRE(bill.demands.size() == 6);
    CHECK(bill.warnings.empty());
    const auto cut = [&](std::size_t demand, std::size_t want) {
        return bill.demands[demand].cuts.at(want);
    };
    CHECK(bill.demands[0].material->code == "BOARD-300");
    CHECK(mm(cut(0, 0).size.width) == 360);
    CHECK(mm(cut(0, 0).size.height) == 205);
    CHECK(cut(0, 0).count == 3);
    REQUIRE(bill.demands[1].cuts.size() == 2);
    CHECK(mm(cut(1, 0).size.width) == 298);
    CHECK(mm(cut(1, 1).size.width) == 70);
    CHECK(mm(cut(1, 1).starts_at.units()) == 290);
    CHECK(cut(1, 0).joined_from == 2);
    CHECK(cut(1, 1).joint == 1);
    CHECK(cut(1, 1).count == 3);
    CHECK(cut(1, 0).turn == Turn::half); // the part says so
    CHECK(bill.demands[2].plains.at(0).quantity == 48);
    CHECK(cut(3, 0).size.width == 15);
    CHECK(bill.demands[4].plains.at(0).quantity == 13284); // thousandths of a millilitre
    CHECK(mm(cut(5, 0).size.width) == 600);
}

TEST_CASE("parts of one material stand together, whatever the case of its code", "[bill]") {
    const std::vector<ShelfMaterial> shelf = {counted("BEAD", {}), counted("TAG", {})};
    const std::vector<Run> runs = {
        run_of({part("beads", "bead", Take::count, 2), part("tags", "TAG", Take::count, 3)}, 5),
        run_of({part("more beads", "Bead", Take::count, 1)}, 4)};
    const Bill bill = make_bill(runs, shelf, arrange(runs, shelf, barrow::layout::Effort::quick));
    REQUIRE(bill.demands.size() == 2);
    REQUIRE(bill.demands[0].plains.size() == 2);
    CHECK(bill.demands[0].plains[0].quantity == 10);
    CHECK(bill.demands[0].plains[1].quantity == 4);
    CHECK(bill.demands[0].plains[1].origin == Origin{1, 0});
}

TEST_CASE("a poured amount is rounded up once, for the whole run", "[bill]") {
    auto glue = part("glue", "GLUE", Take::spread);
    glue.amount = barrow::base::Rational::of(1, 3000); // a third of a thousandth
    CHECK(bill_of({glue}, {poured("GLUE", {})}, 7).demands[0].plains[0].quantity == 3);
}

TEST_CASE("a material the shop does not have is named with the nearest", "[bill]") {
    const std::string text = complaint({piece("cover", "BORD", Length::mm(10), Length::mm(10))},
                                       {board(), counted("TAG", {})});
    CHECK_THAT(text, Catch::Contains("part \"cover\" of test"));
    CHECK_THAT(text, Catch::Contains("no material with the code BORD"));
    CHECK_THAT(text, Catch::Contains("did you mean BOARD?"));
}

TEST_CASE("a material that is used up in another way is refused, whichever way", "[bill]") {
    const std::vector<ShelfMaterial> shelf = {board(), rolls("RIB", Length::mm(100), {}),
                                              strips("WIRE", 23, {}), counted("TAG", {}),
                                              poured("GLUE", {})};
    const auto wants = [&](Take take, const std::string& material) {
        auto wrong = part("x", material, take);
        wrong.width = wrong.height = wrong.length = Length::mm(5);
        wrong.loops = 3;
        wrong.amount = barrow::base::Rational(1);
        return complaint({wrong}, shelf);
    };
    CHECK_THAT(wants(Take::piece, "RIB"),
               Catch::Contains("wants pieces cut from a sheet, but RIB is kept as length"));
    CHECK_THAT(wants(Take::length, "WIRE"),
               Catch::Contains("wants a length, but WIRE is kept as wire"));
    CHECK_THAT(wants(Take::loops, "TAG"),
               Catch::Contains("wants loops of wire, but TAG is kept as count"));
    CHECK_THAT(wants(Take::count, "GLUE"),
               Catch::Contains("wants a counted thing, but GLUE is kept as bulk"));
    CHECK_THAT(wants(Take::spread, "BOARD"),
               Catch::Contains("wants an amount in ml or g, but BOARD is kept as sheet"));
}

TEST_CASE("millilitres are not taken from what is kept in grams", "[bill]") {
    auto glue = part("glue", "GLUE", Take::spread);
    glue.amount = barrow::base::Rational(1);
    ShelfMaterial grams = poured("GLUE", {});
    grams.bulk_is_mass = true;
    CHECK_THAT(complaint({glue}, {grams}),
               Catch::Contains("is given in ml, but GLUE is kept in g"));
    glue.amount_is_mass = true;
    CHECK(complaint({glue}, {grams}) == "(accepted)");
}

TEST_CASE("a piece larger than every sheet says what could help", "[bill]") {
    auto cover = piece("cover", "BOARD", Length::mm(900), Length::mm(200));
    CHECK_THAT(
        complaint({cover}, {board()}, Kind::refused),
        Catch::Contains("900 x 200 mm cannot be cut from BOARD, whose sheets are 700 x 500 mm")
            && Catch::Contains("it has no fold to join at"));
    cover.joining.at = {Length::mm(100)};
    cover.joining.overlap = Length::mm(8);
    CHECK_THAT(complaint({cover}, {board()}, Kind::refused),
               Catch::Contains("not even joined where it may be"));
    cover.joining.at = {Length::mm(300)};
    CHECK(complaint({cover}, {board()}) == "(accepted)");
}

TEST_CASE("what is trimmed off a sheet is not there for pieces", "[bill]") {
    ShelfMaterial paper = sheets("PAPER", Length::mm(300), Length::mm(310), {});
    paper.turn = Turn::none;
    paper.trim.bottom = Length::mm(10);
    const auto tall = [&](std::int64_t height) {
        return piece("x", "PAPER", Length::mm(100), Length::mm(height));
    };
    CHECK(complaint({tall(300)}, {paper}) == "(accepted)");
    CHECK_THAT(complaint({tall(301)}, {paper}, Kind::refused),
               Catch::Contains("whose sheets are 300 x 300 mm"));
}

TEST_CASE("a pattern that must stay upright keeps a long piece from being turned", "[bill]") {
    ShelfMaterial paper = sheets("PAPER", Length::mm(300), Length::mm(600), {});
    const auto wide = piece("x", "PAPER", Length::mm(500), Length::mm(200));
    CHECK(complaint({wide}, {paper}) == "(accepted)"); // no pattern: it is turned by a quarter
    for (const Turn turn : {Turn::none, Turn::half}) {
        paper.turn = turn;
        CHECK_THAT(complaint({wide}, {paper}, Kind::refused), Catch::Contains("cannot be cut"));
    }
    auto free = wide; // the part knows better than the pattern
    free.turn = Turn::quarter;
    CHECK(complaint({free}, {paper}) == "(accepted)");
}

TEST_CASE("grain the right way leaves a piece upright, the wrong way turns it on the sheet",
          "[bill]") {
    ShelfMaterial grained = board();
    grained.grain = Grain::height;
    auto cover = piece("cover", "BOARD", Length::mm(300), Length::mm(200));
    cover.grain = Grain::height;
    CutWant want = bill_of({cover}, {grained}).demands[0].cuts[0];
    CHECK_FALSE(want.crosswise);
    CHECK(want.turn == Turn::half);
    cover.grain = Grain::width;
    want = bill_of({cover}, {grained}).demands[0].cuts[0];
    CHECK(want.crosswise);
    CHECK(want.turn == Turn::half);
    CHECK(mm(want.size.width) == 300); // as it lies upright on the journal
}

TEST_CASE("grain against a pattern that may not be turned is warned of", "[bill]") {
    ShelfMaterial grained = board();
    grained.grain = Grain::height;
    grained.turn = Turn::none;
    auto cover = piece("cover", "BOARD", Length::mm(300), Length::mm(200));
    cover.grain = Grain::width;
    const std::vector<ShelfMaterial> shelf = {grained};
    const Bill bill = bill_of({cover}, shelf);
    REQUIRE(bill.warnings.size() == 1);
    CHECK_THAT(bill.warnings[0], Catch::Contains("the grain of BOARD runs the other way"));
    CHECK_FALSE(bill.demands[0].cuts[0].crosswise);
}
