#include "base/error.hpp"
#include "reading/layout_job.hpp"

#include <catch2/catch.hpp>

using namespace barrow::reading;
using barrow::base::Error;
using barrow::layout::Goal;
using barrow::layout::Turn;

namespace {

LayoutJobFile read(const std::string& text) {
    return read_layout_job(text, "job.json");
}

} // namespace

TEST_CASE("a layout job is read with every member it may have", "[layout_job]") {
    const LayoutJobFile file = read(R"({
  "goal": "least_cost",
  "kerf": 0.5,
  "useful": {"width": 150, "height": 60},
  "trimmer": 310,
  "stock": [
    {"id": "new", "width": 305, "height": 304, "cost": 0.85, "count": null,
     "margin": {"left": 1, "right": 2, "top": 3, "bottom": 6}},
    {"id": "K7-2", "width": 120, "height": 305, "cost": 0.20, "count": 1, "offcut": true, "age": 40}
  ],
  "pieces": [
    {"id": "cover", "width": 165, "height": 210, "count": 4, "turn": "none"},
    {"id": "strip", "width": 20, "height": 210, "count": 2, "turn": "half"},
    {"id": "tag", "width": 60, "height": 110, "count": 20, "turn": "quarter"},
    {"id": "plain", "width": 10, "height": 11, "count": 1}
  ]
})");
    CHECK(file.measure_places == 1); // for the half millimetre of the kerf
    CHECK(file.cost_places == 2);
    const auto& job = file.job;
    CHECK(job.goal == Goal::least_cost);
    CHECK_FALSE(job.one_dimensional);
    CHECK(job.kerf == 5);
    CHECK(job.useful.shorter == 600); // whichever way round it was given
    CHECK(job.useful.longer == 1500);
    CHECK(job.trimmer == 3100);
    REQUIRE(job.stock.size() == 2);
    CHECK(job.stock[0].id == "new");
    CHECK(job.stock[0].width == 3050);
    CHECK(job.stock[0].height == 3040);
    CHECK(job.stock[0].cost == 85);
    CHECK_FALSE(job.stock[0].count.has_value());
    CHECK(job.stock[0].margin.left == 10);
    CHECK(job.stock[0].margin.right == 20);
    CHECK(job.stock[0].margin.top == 30);
    CHECK(job.stock[0].margin.bottom == 60);
    CHECK_FALSE(job.stock[0].offcut);
    CHECK(job.stock[1].count == 1);
    CHECK(job.stock[1].offcut);
    CHECK(job.stock[1].age == 40);
    REQUIRE(job.pieces.size() == 4);
    CHECK(job.pieces[0].count == 4);
    CHECK(job.pieces[0].turn == Turn::none);
    CHECK(job.pieces[1].turn == Turn::half);
    CHECK(job.pieces[2].turn == Turn::quarter);
    CHECK(job.pieces[3].turn == Turn::none);
}

TEST_CASE("decimals are exact and come back as they were written", "[layout_job]") {
    // 12 in = 304.8 mm; 1/64 in = 0.396875 mm: no binary fraction holds either.
    const LayoutJobFile file = read(R"({"kerf": 0.396875,
      "stock": [{"id": "s", "width": 304.8, "height": 304.8, "cost": 0.1}],
      "pieces": [{"id": "p", "width": 100, "height": 0.1, "count": 1}]})");
    CHECK(file.measure_places == 6);
    CHECK(file.job.kerf == 396875);
    CHECK(file.job.stock[0].width == 304'800'000);
    CHECK(file.job.pieces[0].height == 100'000);
    CHECK(file.measure_text(file.job.kerf) == "0.396875");
    CHECK(file.measure_text(file.job.stock[0].width) == "304.8");
    CHECK(file.measure_text(file.job.pieces[0].width) == "100");
    CHECK(file.cost_text(file.job.stock[0].cost) == "0.1");
    CHECK(file.cost_text(3 * file.job.stock[0].cost) == "0.3");
}

TEST_CASE("an exponent moves the point and nothing else", "[layout_job]") {
    const LayoutJobFile file = read(R"({
      "stock": [{"id": "s", "width": 3.048e2, "height": 30480E-2, "cost": 1e3}],
      "pieces": [{"id": "p", "width": 1.0e+1, "height": 10.00, "count": 2e0}]})");
    CHECK(file.measure_places == 1);
    CHECK(file.job.stock[0].width == 3048);
    CHECK(file.job.stock[0].height == 3048);
    CHECK(file.job.stock[0].cost == 1000);
    CHECK(file.cost_places == 0);
    CHECK(file.job.pieces[0].width == 100);
    CHECK(file.job.pieces[0].count == 2);
}

TEST_CASE("a sheet without a cost costs its area, beside sheets with one", "[layout_job]") {
    const LayoutJobFile file = read(R"({
      "stock": [{"id": "a", "width": 10.5, "height": 2}, {"id": "b", "width": 10.5, "height": 2, "cost": 20.5},
                {"id": "c", "width": 1, "height": 2, "cost": null}],
      "pieces": [{"id": "p", "width": 1, "height": 1, "count": 1}]})");
    CHECK(file.cost_text(file.job.stock[0].cost) == "21");
    CHECK(file.cost_text(file.job.stock[1].cost) == "20.5");
    CHECK(file.cost_text(file.job.stock[2].cost) == "2");
}

TEST_CASE("null stands for what is not said, and 0 for none", "[layout_job]") {
    const LayoutJobFile file = read(R"({
      "stock": [{"id": "s", "width": 20, "height": 20}, {"id": "gone", "width": 9, "height": 9, "count": 0},
                {"id": "t", "width": 9, "height": 9, "margin": {"left": 5, "right": 4}}],
      "pieces": [{"id": "p", "width": 1, "height": 1, "count": 1, "turn": null},
                 {"id": "q", "width": 1, "height": 1, "count": 0}]})");
    CHECK(file.job.pieces[0].turn == Turn::none);
    CHECK(file.job.pieces[1].count == 0);
    CHECK(file.job.stock[1].count == 0);
}

TEST_CASE("costs with more than nine decimal places are written in full", "[layout_job]") {
    const LayoutJobFile file = read(R"({
      "stock": [{"id": "s", "width": 203.99375, "height": 203.99375}],
      "pieces": [{"id": "p", "width": 1, "height": 1, "count": 1}]})");
    CHECK(file.cost_text(file.job.stock[0].cost) == "41613.4500390625");
    CHECK(file.cost_text(-1).substr(0, 4) == "-0.0");
    CHECK(file.cost_text(0) == "0");
}

TEST_CASE("a piece is worth its area when a sheet is to be filled, or what is said",
          "[layout_job]") {
    const LayoutJobFile file = read(R"({"goal": "most_value",
      "stock": [{"id": "s", "width": 100, "height": 50.5, "cost": 1}],
      "pieces": [{"id": "a", "width": 10, "height": 20.5},
                 {"id": "b", "width": 10, "height": 20, "value": 3.25, "count": 4},
                 {"id": "c", "width": 10, "height": 20, "value": 1, "count": null}]})");
    CHECK(file.job.goal == Goal::most_value);
    CHECK(file.cost_text(file.job.pieces[0].value) == "205");
    CHECK(file.cost_text(file.job.pieces[1].value) == "3.25");
    CHECK(file.job.pieces[1].count == 4);
    CHECK_FALSE(file.job.pieces[0].count.has_value());
    CHECK_FALSE(file.job.pieces[2].count.has_value());
}

TEST_CASE("a job of lengths has length in place of width and height", "[layout_job]") {
    const LayoutJobFile file = read(R"({"useful": {"length": 25},
      "stock": [{"id": "roll", "length": 1000.5}],
      "pieces": [{"id": "tie", "length": 75.25, "count": 3}]})");
    CHECK(file.job.one_dimensional);
    CHECK(file.job.stock[0].width == 100050);
    CHECK(file.job.stock[0].height == 1);
    CHECK(file.job.pieces[0].width == 7525);
    CHECK(file.job.pieces[0].height == 1);
    CHECK(file.cost_text(file.job.stock[0].cost) == "1000.5"); // its length
    CHECK(file.job.useful.longer == 2500);
}

TEST_CASE("areas of fine measures leave room for the sum over many sheets", "[layout_job]") {
    // 304.8 x 304.8 mm is 92903.04 mm2; beside a kerf of 1/64 in it was once carried to twelve
    // places, and a hundred sheets were refused as too dear.
    const LayoutJobFile file = read(R"({"kerf": 0.396875,
      "stock": [{"id": "s", "width": 304.8, "height": 304.8}],
      "pieces": [{"id": "p", "width": 300, "height": 300, "count": 1000000}]})");
    CHECK(file.cost_places == 2);
    CHECK(file.job.stock[0].cost == 9'290'304);
    CHECK(file.cost_text(file.job.stock[0].cost) == "92903.04");
}

TEST_CASE("the goal is least cost when nothing is said", "[layout_job]") {
    CHECK(read(R"({"stock": [{"id": "s", "width": 2, "height": 2}],
                   "pieces": [{"id": "p", "width": 1, "height": 1, "count": 1}]})")
              .job.goal
          == Goal::least_cost);
}
