#include "base/error.hpp"
#include "design/formula/formula.hpp"

#include "support_csv.hpp"

#include <catch2/catch.hpp>

#include <map>

using namespace barrow::design;
using barrow::base::Error;
using barrow::base::Rational;

namespace {

const std::map<std::string, Quantity, std::less<>> names = {
    {"n", {Rational(16), plain}},
    {"long_side", {Rational(165), a_length}},
    {"cover.length", {Rational(360), a_length}},
};

Quantity look_up(std::string_view name, std::size_t) {
    const auto found = names.find(name);
    if (found == names.end()) throw barrow::base::bad_input("", "no such name");
    return found->second;
}

std::string value(const std::string& text) {
    return to_text(evaluate(parse_formula(text, {"d.toml", 4, 10, "width"}), look_up));
}

std::string complaint(const std::string& text) {
    try {
        return "(accepted) " + value(text);
    } catch (const Error& error) {
        CHECK(error.kind() == barrow::base::Kind::bad_input);
        return error.what();
    }
}

} // namespace

TEST_CASE("formulas follow the usual order of operations, exactly", "[formula]") {
    CHECK(value("2 + 3 * 4") == "14");
    CHECK(value("(2 + 3) * 4") == "20");
    CHECK(value("20 - 6 - 4") == "10");
    CHECK(value("20 / 4 / 5") == "1");
    CHECK(value("-3 * -2") == "6");
    CHECK(value("1/3 + 1/6") == "0.5");
    CHECK(value("0.1 + 0.2 - 0.3") == "0"); // not so in binary floating point
    CHECK(value("long_side + 2 * 20mm") == "205 mm");
    CHECK(value("cover.length / 2") == "180 mm");
    CHECK(value("cover.length / long_side * 11") == "24");
}

TEST_CASE("numbers carry units and mixed fractions", "[formula]") {
    CHECK(value("16.5 cm") == "165 mm");
    CHECK(value("6 1/2in") == "165.1 mm");
    CHECK(value("6 1/2 in + 1in") == "190.5 mm");
    CHECK(value("1yd - 3ft") == "0 mm");
    CHECK(value("long_side * cover.length") == "0.0594 m2");
    CHECK(value("long_side * cover.length * 60 g / 1 m2") == "3.564 g");
    CHECK(value("0.25 l") == "250 ml");
    CHECK(value("5/8in") == "15.875 mm"); // a fraction with its unit is one number
    CHECK(value("1in / 2") == "12.7 mm");
}

TEST_CASE("functions round to a step, choose and compare", "[formula]") {
    CHECK(value("round_up(long_side, 1cm)") == "170 mm");
    CHECK(value("round_down(long_side, 1cm)") == "160 mm");
    CHECK(value("round(2.5, 1)") == "3");
    CHECK(value("round_up(16 / 5, 1)") == "4");
    CHECK(value("min(3, n, 2)") == "2");
    CHECK(value("max(1cm, long_side)") == "165 mm");
    CHECK(value("if(n > 12, 5/8in, 1/2in)") == "15.875 mm");
    CHECK(value("if(n <= 12, 1, 0)") == "0");
    CHECK(value("if(long_side = 16.5cm, 1, 0)") == "1");
}

TEST_CASE("loops on an edge are the published counts", "[formula]") {
    for (const auto& row : barrow::test::rows_of("design/wire_loops.csv")) {
        INFO(row[0] << " at " << row[2] << " loops an inch");
        CHECK(value("loops(" + row[1] + "mm, 1in / " + row[2] + ", 8mm)") == row[3]);
    }
}

TEST_CASE("formula errors name line, column and what to do", "[formula]") {
    CHECK_THAT(complaint("2 +"),
               Catch::Contains("d.toml:4:13, width") && Catch::Contains("ends where"));
    CHECK_THAT(complaint("2 3"),
               Catch::Contains("d.toml:4:12") && Catch::Contains("\"3\" is not expected"));
    CHECK_THAT(complaint("(2"), Catch::Contains("\")\" is missing"));
    CHECK_THAT(complaint(""), Catch::Contains("ends where"));
    CHECK_THAT(complaint("5 inch"),
               Catch::Contains("unknown unit \"inch\"") && Catch::Contains("mm, cm"));
    CHECK_THAT(complaint("6 1/2"), Catch::Contains("\"1\" is not expected"));
    CHECK_THAT(complaint("2cm + 3"), Catch::Contains("d.toml:4:14")
                                         && Catch::Contains("a length (20 mm)")
                                         && Catch::Contains("a plain number (3)"));
    CHECK_THAT(complaint("min(2cm, 3)"), Catch::Contains("one kind"));
    CHECK_THAT(complaint("1 / (n - 16)"), Catch::Contains("division by zero"));
    CHECK_THAT(complaint("round_up(3, 0)"), Catch::Contains("step"));
    CHECK_THAT(complaint("round_up(3, 1, 1)"), Catch::Contains("round_up(x, step)"));
    CHECK_THAT(complaint("sqrt(3)"),
               Catch::Contains("no function \"sqrt\"") && Catch::Contains("round_up"));
    CHECK_THAT(complaint("if(3, 1, 2)"), Catch::Contains("comparison"));
    CHECK_THAT(complaint("1..2"), Catch::Contains("is not a number"));
    CHECK_THAT(complaint("loops(10mm, 1in, 8mm)"), Catch::Contains("no loop fits"));
    CHECK_THAT(complaint("1000000000 * 1000000000 * 1000000000"), Catch::Contains("too large"));
    CHECK_THAT(complaint(std::string(500, '(') + "1" + std::string(500, ')')),
               Catch::Contains("nested too deeply"));
    CHECK_THAT(complaint(std::string(500, '-') + "1"), Catch::Contains("nested too deeply"));
}

TEST_CASE("a formula can be shown with the values of its names", "[formula]") {
    const Formula formula = parse_formula("long_side + 2 * (n + 1) * 1mm", {});
    CHECK(spelled_out(formula, look_up) == "165 mm + 2 * (16 + 1) * 1mm");
    CHECK(names_in(formula) == std::vector<std::string>{"long_side", "n"});
}
