#include "base/error.hpp"
#include "design/file/design_file.hpp"
#include "design/work/work_out.hpp"

#include "design/sample.hpp"
#include "design/support.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>

using namespace barrow::design;
using barrow::base::Error;
using barrow::base::Length;
using barrow::design::test::replaced;

namespace {

std::string complaint(const std::string& text, const Changes& changes = {}) {
    try {
        work_out(read_design(text, "quay.toml"), changes);
        return "(accepted)";
    } catch (const Error& error) {
        return error.what();
    }
}

} // namespace

TEST_CASE("a cover follows from its envelopes", "[work_out]") {
    // Common practice, no source: envelopes of 9 x 16.5 cm, 2 cm between an envelope and the edge
    // or the next fold, a base fold of 3 cm, a second of 3 cm, a closing flap of 4 cm.
    // By hand: panel 20 + 90 + 20 = 130; length 130 + 30 + 130 + 30 + 40 = 360; height 205 mm.
    const Worked worked = work_out(read_design(sample_design, "quay.toml"));
    REQUIRE(worked.cover.has_value());
    CHECK(worked.cover->length == Length::mm(360));
    CHECK(worked.cover->height == Length::mm(205));
    CHECK(
        worked.cover->folds
        == std::vector<Length>{Length::mm(130), Length::mm(160), Length::mm(290), Length::mm(320)});
    REQUIRE(worked.parts.size() == 6);
    CHECK(worked.parts[1].joining.at == worked.cover->folds);
    CHECK(worked.parts[1].joining.overlap == Length::mm(8));
    CHECK(worked.parts[2].number == 16);
    // 205 mm less 1 cm at each end is 185 mm: 14 pitches of 12.7 mm, so 15 loops (common practice,
    // no source: a wire of two loops an inch that starts about 1 cm in from each end).
    CHECK(worked.parts[3].loops == 15);
    // 0.36 m x 0.205 m x 60 ml/m2 = 4.428 ml
    CHECK(worked.parts[4].amount == barrow::base::Rational::of(4428, 1000));
    CHECK_FALSE(worked.parts[4].amount_is_mass);
    CHECK(worked.minutes_per_journal == barrow::base::Rational(6));
    CHECK(worked.minutes_per_batch == barrow::base::Rational(10));
}

TEST_CASE("changing a parameter changes everything that follows from it", "[work_out]") {
    const Design design = read_design(sample_design, "quay.toml");
    const Worked worked = work_out(
        design, {{{"envelope_long", "17cm"}, {"envelopes", "20"}}, {{"outside", "MOSS-12"}}});
    CHECK(worked.cover->height == Length::mm(210));
    CHECK(worked.parts[2].number == 20);
    CHECK(worked.parts[1].material == "MOSS-12");
    CHECK(worked.parts[0].height == Length::mm(210));
}

TEST_CASE("every number can be explained", "[work_out]") {
    const Worked worked = work_out(read_design(sample_design, "quay.toml"));
    const auto find = [&](const std::string& name) {
        return *std::find_if(worked.explanations.begin(), worked.explanations.end(),
                             [&](const Explanation& e) { return e.name == name; });
    };
    CHECK(find("panel").spelled == "90 mm + 2 * 20 mm");
    CHECK(find("panel").value == "130 mm");
    CHECK(find("cover.length").spelled == "130 mm + 30 mm + 130 mm + 30 mm + 40 mm");
    CHECK(find("cover.length").value == "360 mm");
}

TEST_CASE("changes that name nothing or do not fit are refused", "[work_out]") {
    CHECK_THAT(complaint(sample_design, {{{"envelope", "3"}}, {}}),
               Catch::Contains("--set envelope=3") && Catch::Contains("did you mean envelopes"));
    CHECK_THAT(complaint(sample_design, {{{"clear", "3"}}, {}}),
               Catch::Contains("is a plain number, but clear is a length"));
    CHECK_THAT(complaint(sample_design, {{{"envelopes", "2.5"}}, {}}),
               Catch::Contains("not a whole number"));
    CHECK_THAT(complaint(sample_design, {{{"envelopes", "61"}}, {}}),
               Catch::Contains("above the most, 60"));
    CHECK_THAT(complaint(sample_design, {{{"envelopes", "n"}}, {}}),
               Catch::Contains("is not a value"));
    CHECK_THAT(complaint(sample_design, {{}, {{"outsid", "X"}}}),
               Catch::Contains("did you mean outside"));
}

TEST_CASE("names that need each other are named as a circle", "[work_out]") {
    const std::string text = replaced(sample_design, "panel = \"envelope_wide + 2 * clear\"",
                                      "panel = \"half * 2\"\nhalf = \"cover.front / 2\"");
    CHECK_THAT(complaint(text), Catch::Contains("half -> cover.front -> panel -> half")
                                    && Catch::Contains("quay.toml:"));
}

TEST_CASE("dimensions that do not fit are named with line and column", "[work_out]") {
    const auto changed = [](const std::string& from, const std::string& to) {
        return complaint(replaced(sample_design, from, to));
    };
    CHECK_THAT(changed("number = \"envelopes\"", "number = \"envelope_long\""),
               Catch::Contains("is a length (165 mm); expected a plain number")
                   && Catch::Contains("part \"envelopes\" number"));
    CHECK_THAT(changed("number = \"envelopes\"", "number = \"envelopes / 3\""),
               Catch::Contains("expected a whole number") && Catch::Contains("round_up"));
    CHECK_THAT(changed("length = \"60 cm\"", "length = \"60\""),
               Catch::Contains("expected a length"));
    CHECK_THAT(changed("length = \"60 cm\"", "length = \"1cm - 2cm\""),
               Catch::Contains("between zero"));
    CHECK_THAT(changed("length = \"60 cm\"", "length = \"1cm - 1cm\""),
               Catch::Contains("above zero"));
    CHECK_THAT(changed("width = \"3 cm\" }", "width = \"3\" }"),
               Catch::Contains("expected a length") || Catch::Contains("neighbours"));
    CHECK_THAT(
        changed("amount = \"cover.length * cover.height * 60 ml / 1 m2\"", "amount = \"60 mm\""),
        Catch::Contains("a volume (ml) or a mass (g)"));
    CHECK_THAT(changed("minutes = 6", "minutes = \"6 mm\""),
               Catch::Contains("minutes as a plain number"));
    CHECK_THAT(changed("panel = \"envelope_wide", "panel = \"envelop_wide"),
               Catch::Contains("no name \"envelop_wide\"")
                   && Catch::Contains("did you mean envelope_wide"));
}

TEST_CASE("a part of number zero is left out", "[work_out]") {
    const std::string text =
        replaced(sample_design, "number = \"envelopes\"", "number = \"envelopes - 16\"");
    CHECK(work_out(read_design(text, "quay.toml")).parts.size() == 5);
}
