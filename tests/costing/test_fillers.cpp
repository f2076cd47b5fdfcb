#include "costing/arrange/arrange.hpp"
#include "costing/bill/bill.hpp"
#include "costing/stock.hpp"

#include <catch2/catch.hpp>

using namespace barrow;
using namespace barrow::costing;
using namespace barrow::test;

TEST_CASE("fillers are cut from what is left over, and never take a sheet", "[fillers]") {
    // By hand: a sheet of 100 x 100 gives a piece of 60 x 100 and leaves a strip of 40 x 100, which
    // holds three fillers of 40 x 30. Two journals want four in all: three from one, one from the
    // other sheet.
    std::vector<ShelfMaterial> shelf = {sheets("P", Length::mm(100), Length::mm(100), {{5, 500}})};
    Run run = run_of({piece("leaf", "P", Length::mm(60), Length::mm(100))}, 2);
    auto tag = piece("tag", "P", Length::mm(40), Length::mm(30), 2);
    tag.worth = base::Rational::of(1, 2);
    run.design.fillers = {tag};
    const Estimate made = estimated({run}, shelf);
    REQUIRE(made.cuts.size() == 1);
    CHECK(made.cuts[0].sheets.size() == 2);
    REQUIRE(made.lines.size() == 2);
    CHECK(made.lines[1].part == "tag");
    CHECK(made.lines[1].quantity == 4);
    CHECK(sum_of_lines(made) == taken_in_all(made));
    // With nothing left over there are none, and no sheet is taken for them.
    run.design.parts[0].width = Length::mm(100);
    const Estimate full = estimated({run}, shelf);
    CHECK(full.cuts[0].sheets.size() == 2);
    CHECK(full.lines.size() == 1);
}

TEST_CASE("a filler of a reverse face goes with the paper of its front", "[fillers]") {
    std::vector<ShelfMaterial> shelf = {sheets("P", Length::mm(100), Length::mm(100), {{5, 500}}),
                                        sheets("Q", Length::mm(100), Length::mm(100), {{5, 500}})};
    Run run = run_of({piece("leaf", "P", Length::mm(60), Length::mm(100)),
                      piece("back", "Q", Length::mm(60), Length::mm(100))},
                     1);
    design::WorkedSlot front;
    front.name = "front";
    front.material = "P";
    design::WorkedSlot reverse;
    reverse.name = "reverse";
    reverse.reverse_of = "front";
    run.design.slots = {front, reverse};
    auto tag = piece("tag", "", Length::mm(40), Length::mm(30));
    tag.material.clear();
    tag.slot = "reverse";
    tag.worth = base::Rational::of(1, 2);
    run.design.fillers = {tag};
    const Estimate made = estimated({run}, shelf);
    REQUIRE(made.lines.size() == 3);
    CHECK(made.lines[2].part == "tag");
    CHECK(made.lines[2].material == "P");
}

TEST_CASE("a filler of a collection is cut from its papers, not from its ribbon", "[fillers]") {
    std::vector<ShelfMaterial> shelf = {sheets("P", Length::mm(100), Length::mm(100), {{5, 500}}),
                                        rolls("R", Length::mm(1'000), {{2, 300}})};
    for (ShelfMaterial& each : shelf) each.collection = "Marsh";
    Run run = run_of({piece("leaf", "P", Length::mm(60), Length::mm(100)),
                      part("tie", "R", design::Take::length)},
                     1);
    run.design.parts[1].length = Length::mm(200);
    design::WorkedSlot any;
    any.name = "any";
    any.collection = "Marsh";
    run.design.slots = {any};
    auto tag = piece("tag", "", Length::mm(40), Length::mm(30));
    tag.slot = "any";
    tag.worth = base::Rational::of(1, 2);
    run.design.fillers = {tag};
    const Estimate made = estimated({run}, shelf);
    REQUIRE(made.lines.size() == 3);
    CHECK(made.lines[2].part == "tag");
    CHECK(made.lines[2].material == "P");
    // A filler that names the ribbon is wrong, and says so.
    run.design.fillers[0].material = "R";
    CHECK_THROWS_WITH(estimated({run}, shelf), Catch::Contains("part \"tag\" of test")
                                                   && Catch::Contains("pieces cut from a sheet"));
}
