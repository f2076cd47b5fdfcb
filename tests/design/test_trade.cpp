#include "design/support.hpp"

#include "support_csv.hpp"

using namespace barrow::design;
using namespace barrow::design::test;
using barrow::base::Length;
using barrow::base::Rational;

namespace {

/// Length on the program's grid of a decimal number of millimetres.
/// |a - b| <= margin.
bool near(const Rational& a, const Rational& b, const Rational& margin) {
    return a - b <= margin && b - a <= margin;
}

} // namespace

TEST_CASE("loops of wire on an edge are the published ones", "[trade]") {
    for (const auto& row : barrow::test::rows_of("design/wire_loops.csv")) {
        INFO(row[0] << " at " << row[2] << ":1");
        const Worked worked = calculated(
            "wire",
            {{"edge", row[1] + " mm"}, {"pitch", "1in / " + row[2]}, {"thickness", "3 mm"}});
        REQUIRE(worked.binding.has_value());
        CHECK(std::to_string(worked.binding->marks.size()) == row[3]);
        CHECK(part_called(worked, "binding wire").loops == std::stoll(row[3]));
        // Centred, and no hole breaks the end of the edge: its middle is a hole's width in at
        // least.
        const Length first = worked.binding->marks.front();
        const Length last = worked.binding->edge - worked.binding->marks.back();
        CHECK((first - last <= Length::of_units(1) || last - first <= Length::of_units(1)));
        CHECK(first >= worked.binding->hole.value());
    }
}

TEST_CASE("each wire holds a block as thick as published, and no thicker", "[trade]") {
    for (const auto& row : barrow::test::rows_of("design/wire_diameters.csv")) {
        for (const auto& [column, room] :
             std::map<std::size_t, std::string>{{2, "1/8in"}, {3, "3/16in"}}) {
            INFO(row[0] << " with room " << room);
            const auto size_for = [&](const Rational& thickness) {
                const Worked worked =
                    calculated("wire", {{"thickness", barrow::base::to_text(thickness) + " mm"},
                                        {"room", room}});
                const Quantity* size = number_of(*worked.binding, "size");
                return size == nullptr ? Rational(0) : size->number;
            };
            const Rational diameter =
                barrow::base::read_rational(row[0]).value() * Rational::of(127, 5);
            // The table is rounded to 0.001 mm, half away from zero: just inside fits, just beyond
            // wants the next wire.
            const Rational most = barrow::base::read_rational(row[column]).value();
            const Rational step = Rational::of(1, 1'000);
            if (most > step) CHECK(size_for(most - step) <= diameter);
            CHECK(size_for(most + step) != diameter);
        }
    }
}

TEST_CASE("the usual pitch changes at 5/8 in", "[trade]") {
    for (const auto& row : barrow::test::rows_of("design/wire_diameters.csv")) {
        INFO(row[0]);
        const Worked worked =
            calculated("wire", {{"diameter", row[0] + "in"}, {"thickness", row[0] + "in - 1/8in"}});
        CHECK(number_of(*worked.binding, "size")->number
              == barrow::base::read_rational(row[0]).value() * Rational::of(127, 5));
        CHECK(number_of(*worked.binding, "usual_pitch")->number
              == Rational::of(127, 5) / Rational(row[1] == "3:1" ? 3 : 2));
    }
}

TEST_CASE("basis weights convert as published", "[trade]") {
    const auto rows = barrow::test::rows_of("design/basis_weight.csv");
    REQUIRE(rows.size() > 20);
    for (const auto& row : rows) {
        INFO(row[0] << " " << row[1] << " lb");
        const Formula formula =
            parse_formula(row[1] + " lb / (500 * " + row[2] + "in * " + row[3] + "in)", {});
        const Quantity grammage =
            evaluate(formula, [](std::string_view, std::size_t) { return Quantity{}; });
        CHECK(grammage.dimension == a_grammage);
        const Rational in_m2 = grammage.number * Rational(mm2_per_m2);
        CHECK(near(in_m2, barrow::base::read_rational(row[4]).value(), Rational::of(1, 1'000)));
        if (row[5].empty()) continue;
        // Worked examples are printed with a factor of 3 or 4 digits; standards name a grade by a
        // round figure near its weight, at most 2 in 100 off.
        const Rational published = barrow::base::read_rational(row[5]).value();
        const bool round_figure = row[5].find('.') == std::string::npos;
        CHECK(
            near(in_m2, published, round_figure ? published / Rational(50) : Rational::of(5, 100)));
    }
}

TEST_CASE("thickness follows from grammage and bulk, and bulk from both", "[trade]") {
    for (const auto& row : barrow::test::rows_of("design/paper_caliper.csv")) {
        INFO(row[0] << " " << row[1] << " g/m2");
        MaterialFacts facts;
        facts.grammage = barrow::base::read_rational(row[1]);
        facts.bulk = barrow::base::read_rational(row[3]);
        const Quantity caliper = find_fact("caliper")->of(facts).value();
        CHECK(caliper.dimension == a_length);
        // The bulk is rounded to 0.001, so the thickness is good to grammage / 2 000 000 mm.
        CHECK(near(caliper.number, barrow::base::read_rational(row[2]).value(),
                   *facts.grammage / Rational(2'000'000)));
        const Worked paper = calculated(
            "paper",
            {{"grammage", row[1] + " g/m2"}, {"measured", row[2] + " mm"}, {"sheets", "1"}});
        CHECK(value_of(paper, "bulk_measured").find("cm3/g") != std::string::npos);
    }
    // Published pair: 100 um at 80 g/m2 is 1.25 cm3/g (a testing laboratory's page after ISO 534).
    CHECK(value_of(calculated("paper",
                              {{"grammage", "80 g/m2"}, {"measured", "100 um"}, {"sheets", "1"}}),
                   "bulk_measured")
          == "1.25 cm3/g");
}

TEST_CASE("blocks are as thick as published", "[trade]") {
    // A US book printer's page on spines: 128 pages, 0.0039 in a leaf: 64 x 0.0039 = 0.2496 in.
    const auto thick = [](const std::string& number, const std::string& leaf) {
        return calculated("thickness",
                          {{"envelopes", "0"}, {"tags", number}, {"tag", leaf}, {"give", "0 %"}})
            .block->thickness;
    };
    CHECK(thick("128 / 2", "0.0039 in")
          == as_length({Rational::of(2496, 10'000) * Rational::of(127, 5), a_length}));
    // rhollick.wordpress.com, "ppi" (2010): 840 pages of 86 um leaves: 36.12 mm.
    CHECK(thick("840 / 2", "86 um") == mm("36.12"));
}

TEST_CASE("sewn stations and ring holes are centred", "[trade]") {
    // ISO 838 (fact-archive.com): two holes 80 mm apart, centred: on 297 mm the first is at 108.5
    // mm.
    const Worked rings = calculated("rings", {{"edge", "297 mm"}});
    CHECK(rings.binding->marks == std::vector<Length>{mm("108.5"), mm("188.5")});
    CHECK(rings.binding->setback == Length::mm(12));
    CHECK(rings.binding->hole == Length::mm(6));
    // By hand (common practice, no source): 180 mm less 15 mm at either end leaves 150 mm, two
    // stretches of at most 10 cm, so 5 stations 37.5 mm apart; four sections: 4 x 150 mm, three
    // steps of 20 mm and 300 mm to tie are 960 mm of thread.
    const Worked sewn = calculated("sewn", {{"height", "180 mm"}, {"sections", "4"}});
    CHECK(sewn.binding->marks
          == std::vector<Length>{mm("15"), mm("52.5"), mm("90"), mm("127.5"), mm("165")});
    CHECK(part_called(sewn, "thread").length == Length::mm(960));
    // One section is sewn there and back: 2 x 150 + 300.
    CHECK(
        part_called(calculated("sewn", {{"height", "180 mm"}, {"sections", "1"}}), "thread").length
        == Length::mm(600));
}

TEST_CASE("a ribbon's length and gap follow from the pages", "[trade]") {
    // By hand (common practice, no source): round the fold once inside and once outside of 165 mm
    // and 30 cm to tie: 630 mm for each section; two envelopes of 90 mm and an inch between: 205.4.
    const Worked ribbon = calculated("ribbon", {{"sections", "2"}, {"thickness", "10 mm"}});
    CHECK(part_called(ribbon, "binding ribbon").length == Length::mm(630));
    CHECK(part_called(ribbon, "binding ribbon").number == 2);
    CHECK(value_of(ribbon, "binding.page_wide") == "205.4 mm");
    CHECK(value_of(ribbon, "binding.envelopes") == "20");
    CHECK(ribbon.warnings.empty());
    CHECK(any_holds(calculated("ribbon", {{"thickness", "26 mm"}}).warnings, "make the gap wider"));
}

TEST_CASE("an envelope's net and how many a sheet gives", "[trade]") {
    // By hand: 165 + 2 x 12 = 189 wide, 2 x 90 + 35 = 215 high; one on A4 (210 x 297) either way.
    // A sheet of 12 x 12 in (304.8 mm) gives one too; A3 (420 x 297): 420/215 = 1, 297/189 = 1.
    const Worked net = calculated("envelope", {});
    CHECK(value_of(net, "net_width") == "189 mm");
    CHECK(value_of(net, "net_height") == "215 mm");
    CHECK(value_of(net, "from_a_sheet") == "1");
    // 70 x 100 cm: upright 700/189 = 3 by 1000/215 = 4 is 12; turned 1000/189 = 5 by 700/215 = 3
    // is 15.
    CHECK(value_of(calculated("envelope", {{"sheet_width", "70 cm"}, {"sheet_height", "100 cm"}}),
                   "from_a_sheet")
          == "15");
    CHECK(any_holds(
        calculated("envelope", {{"sheet_width", "18 cm"}, {"sheet_height", "20 cm"}}).warnings,
        "does not hold a net"));
}

TEST_CASE("the usual turn-in and square are inside the published limits", "[trade]") {
    const auto limits = barrow::test::rows_of("design/cover_allowances.csv");
    const auto within = [&](const std::string& name, const Quantity& value) {
        for (const auto& row : limits)
            if (row[0] == name)
                return value.number >= barrow::base::read_rational(row[1]).value()
                       && value.number <= barrow::base::read_rational(row[2]).value();
        return false;
    };
    const Design sewn = read_design(find_ready(ready_bases(), "sewn")->text, "sewn");
    for (const Parameter& parameter : sewn.parameters)
        if (parameter.name == "square") CHECK(within("square", parameter.usual));
    // Spine "block thickness", flat (cl. 4.2.6); the base gives a millimetre's ease, in whole mm.
    const Worked worked = work_out(sewn);
    const Length spine = worked.cover->panels[1].width;
    CHECK(spine >= worked.block->thickness + Length::mm(1));
    CHECK(spine < worked.block->thickness + Length::mm(2));
}
