#include "base/error.hpp"
#include "base/length.hpp"

#include "support_csv.hpp"

#include <catch2/catch.hpp>

#include <random>
#include <string>

using namespace barrow::base;

namespace {

std::string complaint(const std::string& text) {
    try {
        read_length(text, "papers.csv:3, width");
    } catch (const Error& error) {
        CHECK(error.kind() == Kind::bad_input);
        return error.what();
    }
    return "(accepted)";
}

} // namespace

TEST_CASE("an inch is 25.4 mm exactly, a yard 0.9144 m", "[length]") {
    // International yard and pound agreement, 1959; addendum (1960) to NBS Circular 572.
    CHECK(read_length("1in", "") == read_length("25.4mm", ""));
    CHECK(read_length("1yd", "") == read_length("0.9144m", ""));
    CHECK(read_length("1yd", "") == read_length("3ft", ""));
    CHECK(read_length("12in", "") == read_length("304.8 mm", ""));
}

TEST_CASE("0.001 mm, 0.01 in and 1/64 in are exact", "[length]") {
    CHECK(read_length("0.001mm", "").units() == 8);
    CHECK(read_length("0.01in", "").units() == 2032);
    CHECK(read_length("1/64in", "").units() == 3175);
    CHECK(read_length("1/64in", "") == read_length("0.396875mm", ""));
}

TEST_CASE("US envelope sizes in inches are the exact millimetres", "[length]") {
    for (const auto& row : barrow::test::rows_of("base/us_envelopes.csv")) {
        INFO(row[0]);
        CHECK(read_length(row[1] + "in", "") == read_length(row[3] + "mm", ""));
        CHECK(read_length(row[2] + "in", "") == read_length(row[4] + "mm", ""));
    }
}

TEST_CASE("ISO sizes halve along the longer side, rounded down to the millimetre", "[length]") {
    // ISO 216: each size is the one before cut in two across its long side (rows: iso_sizes.csv).
    std::string series;
    Length shorter;
    Length longer;
    for (const auto& row : barrow::test::rows_of("base/iso_sizes.csv")) {
        const Length this_shorter = read_length(row[1], "", Unit::mm);
        const Length this_longer = read_length(row[2], "", Unit::mm);
        INFO(row[0]);
        // The C series of ISO 269 lies between A and B and has three sizes that do not halve.
        if (row[0].substr(0, 1) == series && series != "C") {
            CHECK(this_longer == shorter);
            CHECK(this_shorter.units() / Length::units_per_mm
                  == longer.units() / Length::units_per_mm / 2);
        }
        series = row[0].substr(0, 1);
        shorter = this_shorter;
        longer = this_longer;
    }
}

TEST_CASE("lengths are read as people write them", "[length]") {
    CHECK(read_length("16.5cm", "") == Length::mm(165));
    CHECK(read_length("165 mm", "") == Length::mm(165));
    CHECK(read_length("6 1/2in", "") == Length::inches(6, 32));
    CHECK(read_length("6.5\"", "") == Length::inches(6, 32));
    CHECK(read_length("6 1/2 \u2033", "") == Length::inches(6, 32));
    CHECK(read_length("2 1/4 yd", "") == Length::inches(81));
    CHECK(read_length("3m", "") == Length::mm(3000));
    CHECK(read_length("5ft 6in", "") == Length::inches(66));
    CHECK(read_length("5' 6 1/2\"", "") == Length::inches(66, 32));
    CHECK(read_length("  10 MM ", "") == Length::mm(10));
    CHECK(read_length("1/3 ft", "") == Length::inches(4));
    CHECK(read_length("12", "", Unit::inch) == Length::inches(12));
    CHECK(read_length("12mm", "", Unit::inch) == Length::mm(12));
    CHECK(read_length("0", "", Unit::mm).is_zero());
}

TEST_CASE("a bad length names the place, what was found and what to write", "[length]") {
    CHECK_THAT(complaint("12"), Catch::Contains("papers.csv:3, width") && Catch::Contains("no unit")
                                    && Catch::Contains("16.5cm"));
    CHECK_THAT(complaint("12 ftt"), Catch::Contains("\"ftt\"")
                                        && Catch::Contains("did you mean \"ft\"")
                                        && Catch::Contains("mm, cm, m, in, ft, yd"));
    CHECK_THAT(complaint("-3mm"), Catch::Contains("below zero"));
    CHECK_THAT(complaint(""), Catch::Contains("missing"));
    CHECK_THAT(complaint("mm"), Catch::Contains("is not a length"));
    CHECK_THAT(complaint("1..5mm"), Catch::Contains("is not a length"));
    CHECK_THAT(complaint("1,5mm"),
               Catch::Contains("unknown unit") || Catch::Contains("not a length"));
    CHECK_THAT(complaint("8.268in"), Catch::Contains("finer") && Catch::Contains("210.007mm"));
    CHECK_THAT(complaint("101km"), Catch::Contains("unknown unit"));
    CHECK_THAT(complaint("100001m"), Catch::Contains("too long"));
    CHECK_THAT(complaint("99999999999999m"), Catch::Contains("too long"));
}

TEST_CASE("exact text of a length is read back as the same length in every unit", "[length]") {
    std::mt19937_64 random(20270314);
    const auto round_trip = [](std::int64_t units) {
        const Length length = Length::of_units(units);
        for (const Unit unit : {Unit::mm, Unit::cm, Unit::m, Unit::inch, Unit::foot, Unit::yard}) {
            const std::string text = to_text(length, unit);
            INFO(units << " units as " << text);
            REQUIRE(read_length(text, "") == length);
        }
    };
    for (std::int64_t units : {std::int64_t{0}, std::int64_t{1}, Length::most_units,
                               Length::most_units - 1, std::int64_t{3175}, std::int64_t{2032}})
        round_trip(units);
    for (int i = 0; i < 3000; ++i) {
        round_trip(static_cast<std::int64_t>(random() % 40'000'000));
        round_trip(static_cast<std::int64_t>(random() % 100'000) * 3175); // whole 64ths
        round_trip(static_cast<std::int64_t>(random() % Length::most_units));
    }
}

TEST_CASE("lengths are shown in the unit asked for", "[length]") {
    CHECK(to_text(Length::inches(6, 32), Unit::inch) == "6 1/2in");
    CHECK(to_text(Length::mm(165), Unit::cm) == "16.5cm");
    CHECK(to_text(Length::mm(1), Unit::inch) == "1mm"); // no exact inch text exists
    CHECK(show(Length::inches(12), Unit::mm) == "304.8 mm");
    CHECK(show(Length::inches(12), Unit::inch) == "12 in");
    CHECK(show(Length::mm(165), Unit::inch) == "~6 1/2 in");
    CHECK(show(Length::mm(1250), Unit::m) == "1.25 m");
    CHECK(show(Length::mm(165), Unit::mm, true) == "165");
    CHECK(mm_text(Length::inches(0, 1)) == "0.396875");
}
