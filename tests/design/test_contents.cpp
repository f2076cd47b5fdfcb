#include "design/support.hpp"

using namespace barrow::design;
using namespace barrow::design::test;
using barrow::base::Error;
using barrow::base::Length;
using Catch::Matchers::Contains;

namespace {

constexpr const char* letters = R"(
[design]
code = "letters"
name = "Letters"
[parameters]
envelope_wide = "11 cm"
envelope_long = "15.5 cm"
[materials]
board = "BOARD"
envelope = { code = "ENV", wide = "envelope_wide", long = "envelope_long", caliper = "0.1 mm" }
[cover]
height = "envelope_long + 4 cm"
board = "board"
panels = [
  { name = "front", width = "envelope_wide + 4 cm" },
  { name = "base", width = "3 cm", is = "base" },
  { name = "back", width = "envelope_wide + 4 cm" },
]
[block]
layers = [ { name = "envelopes", material = "envelope", number = 12, envelope = true } ]
[[part]]
name = "envelopes"
material = "envelope"
number = 12
)";

Facts envelopes_of(std::int64_t wide, std::int64_t tall) {
    MaterialFacts facts;
    facts.short_side = Length::of_units(wide * Length::units_per_mm);
    facts.long_side = Length::of_units(tall * Length::units_per_mm);
    Facts all;
    all.add("ENV", facts);
    return all;
}

} // namespace

TEST_CASE("a cover that cannot hold the shop's envelopes is an error", "[contents]") {
    const Design design = read_design(letters, "letters.toml");
    const Facts facts = envelopes_of(110, 155);
    CHECK(work_out(design, {}, facts).warnings.empty());
    try {
        work_out(design, {{{"envelope_wide", "60 mm"}}, {}}, facts);
        FAIL("a face of 100 mm cannot hold an envelope of 110 mm");
    } catch (const Error& error) {
        CHECK(error.kind() == barrow::base::Kind::refused);
        CHECK_THAT(error.what(), Contains("ENV is 110 x 155 mm")
                                     && Contains("its largest face, front, only 100 x 195 mm"));
    }
    // A little less clearance is no error, but it is said whose number counts where.
    const Worked tight = work_out(design, {{{"envelope_wide", "10 cm"}}, {}}, facts);
    CHECK(any_holds(tight.warnings,
                    "states a wide of 100 mm, but the shop's is 110 mm. envelope.wide is 110 mm"));
    // Nothing is known of them: nothing is said.
    CHECK(work_out(design, {{{"envelope_wide", "60 mm"}}, {}}).warnings.empty());
}
