#include "base/error.hpp"
#include "design/file/design_file.hpp"

#include "design/sample.hpp"
#include "design/support.hpp"

#include <catch2/catch.hpp>

#include <string>

using namespace barrow::design;
using barrow::base::Error;
using barrow::design::test::replaced;

namespace {

std::string complaint(const std::string& text) {
    try {
        read_design(text, "quay.toml");
        return "(accepted)";
    } catch (const Error& error) {
        CHECK(error.kind() == barrow::base::Kind::bad_input);
        return error.what();
    }
}

std::string changed(const std::string& from, const std::string& to) {
    return complaint(replaced(sample_design, from, to));
}

} // namespace

TEST_CASE("a design file is read whole", "[design]") {
    const Design design = read_design(sample_design, "quay.toml");
    CHECK(design.code == "quay");
    CHECK(design.parameters.size() == 4);
    CHECK(design.parameters[0].name == "envelopes"); // in the order of the file
    CHECK(design.parameters[0].whole);
    CHECK(design.parameters[1].usual == Quantity{barrow::base::Rational(90), a_length});
    CHECK(design.cover->panels.size() == 5);
    CHECK(design.slots[1].about == "patterned side");
    REQUIRE(design.parts.size() == 6);
    CHECK(design.parts[1].join.where == JoinSpec::Where::folds);
    CHECK(design.parts[2].take == Take::count);
    CHECK(design.parts[3].take == Take::loops);
    CHECK(design.parts[4].take == Take::spread);
    CHECK(design.parts[5].take == Take::length);
    CHECK(design.operations[1].per_batch);
}

TEST_CASE("a design file that is not TOML names line and column", "[design]") {
    CHECK_THAT(complaint("[design\ncode = 1"), Catch::Contains("quay.toml:1:8"));
    CHECK_THAT(complaint("[design]\ncode = \"caf\xe9\""), Catch::Contains("not UTF-8"));
    CHECK_THAT(complaint(""), Catch::Contains("[design] is missing"));
}

TEST_CASE("unknown keys are refused with the nearest known one", "[design]") {
    CHECK_THAT(changed("overlap = \"8 mm\"", "overlapp = \"8 mm\""),
               Catch::Contains("\"overlapp\"") && Catch::Contains("did you mean overlap"));
    CHECK_THAT(changed("[materials]", "[material]"),
               Catch::Contains("[materials] is missing") && Catch::Contains("\"material\""));
}

TEST_CASE("wrong types, missing keys and double names are each named with their line", "[design]") {
    CHECK_THAT(changed("minutes = 6", "minutes = 6.5"), Catch::Contains("quay.toml:69:11")
                                                            && Catch::Contains("not exact")
                                                            && Catch::Contains("\"2.5\""));
    CHECK_THAT(changed("code = \"quay\"", "code = 7"),
               Catch::Contains("quay.toml:2:8, [design] code: is a whole number; expected text"));
    CHECK_THAT(changed("code = \"quay\"", "code = \"quay side\""),
               Catch::Contains("cannot be a code"));
    CHECK_THAT(changed("panel = \"envelope", "clear = \"envelope"),
               Catch::Contains("\"clear\" is given twice"));
    CHECK_THAT(changed("name = \"middle\"", "name = \"front\""),
               Catch::Contains("name of a panel"));
    CHECK_THAT(changed("name = \"closure\"", "name = \"glue\""), Catch::Contains("two parts"));
    CHECK_THAT(changed("material = \"ribbon\"", "material = \"riban\""),
               Catch::Contains("did you mean ribbon"));
    CHECK_THAT(changed("turn = \"half\"", "turn = \"full\""),
               Catch::Contains("none or half or quarter"));
    CHECK_THAT(changed("per = \"batch\"", "per = \"day\""), Catch::Contains("journal or batch"));
    CHECK_THAT(changed("length = \"60 cm\"", "length = \"60 cm\"\nloops = 3"),
               Catch::Contains("not clear"));
    CHECK_THAT(changed("length = \"60 cm\"", "about = \"x\""),
               Catch::Contains("not said how much"));
    CHECK_THAT(changed("overlap = \"8 mm\"", ""), Catch::Contains("needs an overlap"));
    CHECK_THAT(changed("clear         = \"2 cm\"", "clear = \"2 * envelope_wide\""),
               Catch::Contains("parameters are plain values"));
    CHECK_THAT(changed("most = 60", "most = \"60 mm\""), Catch::Contains("a limit is a length"));
}

TEST_CASE("all problems of a file are told at once", "[design]") {
    std::string text = replaced(sample_design, "minutes = 6", "minutes = 6.5");
    text = replaced(text, "turn = \"half\"", "turn = \"full\"");
    const std::string told = complaint(text);
    CHECK_THAT(told, Catch::Contains("not exact") && Catch::Contains("none or half or quarter"));
}

TEST_CASE("a formula's column is counted from the start of its line", "[design]") {
    CHECK_THAT(
        changed("height = \"envelope_long + 2 * clear\"", "height = \"envelope_long + * clear\""),
        Catch::Contains("quay.toml:15:27"));
}
