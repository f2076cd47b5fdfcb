#include "design/support.hpp"

using namespace barrow::design;
using namespace barrow::design::test;

namespace {

// Line numbers count from the first line.
const std::string good = R"([design]
code = "quay"
name = "Quay"
[parameters]
envelopes = 12
wide = "9 cm"
[let]
panel = "wide + 2 cm"
[cover]
height = "10 cm"
panels = [ { name = "front", width = "panel" }, { name = "back", width = "panel" } ]
[materials]
card = "CARD"
[[part]]
name = "card"
material = "card"
width = "panel"
height = "10 cm"
[[part]]
name = "tags"
material = "card"
number = "envelopes"
)";

std::string changed(const std::string& from, const std::string& to) {
    return complaint(replaced(good, from, to));
}

} // namespace

TEST_CASE("each mistake in a formula is named with line, column and what to do", "[errors]") {
    // A length where a count is meant.
    CHECK_THAT(changed("number = \"envelopes\"", "number = \"wide\""),
               Catch::Contains("test.toml:22:11, part \"tags\" number")
                   && Catch::Contains("is a length (90 mm); expected a plain number"));
    // A count where a length is meant.
    CHECK_THAT(changed("height = \"10 cm\"\npanels", "height = \"envelopes\"\npanels"),
               Catch::Contains("test.toml:10:11, [cover] height")
                   && Catch::Contains("is a plain number (12); expected a length"));
    // Adding what cannot be added: the column is that of the sign.
    CHECK_THAT(changed("panel = \"wide + 2 cm\"", "panel = \"wide + 2\""),
               Catch::Contains("test.toml:8:15") && Catch::Contains("a length (90 mm)")
                   && Catch::Contains("give both the same kind of unit"));
    CHECK_THAT(changed("\"wide + 2 cm\"", "\"wide + 2 zm\""),
               Catch::Contains("test.toml:8:19") && Catch::Contains("unknown unit \"zm\"")
                   && Catch::Contains("known units: mm"));
    CHECK_THAT(changed("\"wide + 2 cm\"", "\"wide + (2 cm\""),
               Catch::Contains("test.toml:8:") && Catch::Contains("\")\" is missing"));
    CHECK_THAT(changed("\"wide + 2 cm\"", "\"wide +\""),
               Catch::Contains("ends where a value is expected"));
    CHECK_THAT(changed("\"wide + 2 cm\"", "\"bigger(wide, 2 cm)\""),
               Catch::Contains("no function \"bigger\"") && Catch::Contains("functions: min"));
    CHECK_THAT(changed("\"wide + 2 cm\"", "\"wide / (envelopes - 12)\""),
               Catch::Contains("test.toml:8:15") && Catch::Contains("division by zero"));
    CHECK_THAT(changed("\"wide + 2 cm\"", "\"wyde + 2 cm\""),
               Catch::Contains("test.toml:8:10") && Catch::Contains("did you mean wide"));
}

TEST_CASE("a material that is not named is told where the part names it", "[errors]") {
    CHECK_THAT(
        changed("name = \"tags\"\nmaterial = \"card\"", "name = \"tags\"\nmaterial = \"crad\""),
        Catch::Contains("test.toml:21:12, part \"tags\" material")
            && Catch::Contains("\"crad\" is not named in [materials]")
            && Catch::Contains("did you mean card"));
}

TEST_CASE("names that need each other are spelled out as a circle", "[errors]") {
    CHECK_THAT(
        changed("panel = \"wide + 2 cm\"", "panel = \"half * 2\"\nhalf = \"cover.front / 2\""),
        Catch::Contains("half -> cover.front -> panel -> half")
            && Catch::Contains("one of them must be given without the others"));
    CHECK_THAT(changed("panel = \"wide + 2 cm\"", "panel = \"panel + 1 cm\""),
               Catch::Contains("these need each other: panel -> panel"));
}

TEST_CASE("every problem of a design is told, each once", "[errors]") {
    std::string text = replaced(good, "\"wide + 2 cm\"", "\"wide + 2\"");
    text = replaced(text, "number = \"envelopes\"", "number = \"wide\"");
    const std::string told = complaint(text);
    CHECK_THAT(told, Catch::Contains("test.toml:8:15") && Catch::Contains("test.toml:22:11"));
    // panel is used three times, but its problem is one.
    const auto first = told.find("test.toml:8:15");
    CHECK(told.find("test.toml:8:15", first + 1) == std::string::npos);
}

TEST_CASE("joins that cannot be are refused where they are written", "[errors]") {
    const auto card = [](const std::string& more) {
        return changed("width = \"panel\"\nheight", more + "\nwidth = \"panel\"\nheight");
    };
    CHECK_THAT(card("join = \"folds\""), Catch::Contains("needs an overlap"));
    CHECK_THAT(card("join = \"anywhere\"\noverlap = \"8 mm\""),
               Catch::Contains("needs a least_piece"));
    CHECK_THAT(card("join = \"front/bacck\"\noverlap = \"8 mm\""),
               Catch::Contains("test.toml:17:8, part \"card\" join")
                   && Catch::Contains("no fold between panels") && Catch::Contains("front/back"));
    CHECK_THAT(card("overlap = \"8 mm\""), Catch::Contains("only go with a join"));
    CHECK_THAT(card("join = \"folds\"\noverlap = \"8 mm\"\nno_join_on = \"bak\""),
               Catch::Contains("test.toml:19:14, part \"card\" no_join_on")
                   && Catch::Contains("no panel") && Catch::Contains("did you mean back"));
}

TEST_CASE("bindings and facts that are missing say how they are given", "[errors]") {
    const std::string bound = replaced(good, "card = \"CARD\"", "card = \"CARD\"\nwire = \"WIRE\"");
    CHECK_THAT(complaint(bound + "[binding]\nkind = \"wyre\"\n"),
               Catch::Contains("did you mean wire"));
    CHECK_THAT(complaint(bound + "[binding]\nkind = \"wire\"\nmaterial = \"wire\"\n"),
               Catch::Contains("\"edge\" is missing"));
    // The pitch of the wire is needed for its loops, and nobody has given it.
    CHECK_THAT(
        complaint(bound + "[binding]\nkind = \"wire\"\nmaterial = \"wire\"\nedge = \"10 cm\"\n"),
        Catch::Contains("wire.pitch is not known: WIRE has no pitch")
            && Catch::Contains("pitch = \"1in / 2\"")
            && Catch::Contains("barrow material change WIRE --pitch 2:1"));
    // Its diameter is only nice to know.
    Facts facts;
    MaterialFacts wire;
    wire.loops_per_inch = barrow::base::Rational(2);
    facts.add("wire", wire);
    const Worked worked = worked_from(
        bound + "[binding]\nkind = \"wire\"\nmaterial = \"wire\"\nedge = \"10 cm\"\n", {}, facts);
    CHECK(worked.binding->marks.size() == 7);
    CHECK(any_holds(worked.not_known, "wire.diameter is not known"));
}
