#include "base/error.hpp"
#include "reading/layout_job.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace barrow::reading;
using barrow::base::Error;
using barrow::base::Kind;

namespace {

std::string complaint(const std::string& text) {
    try {
        read_layout_job(text, "job.json");
        return "(accepted)";
    } catch (const Error& error) {
        CHECK(error.kind() == Kind::bad_input);
        return error.what();
    }
}

/// A job with one stock entry and one piece, both as given.
std::string job(const std::string& stock, const std::string& piece, const std::string& more = "") {
    return "{" + more + "\n\"stock\": [\n" + stock + "],\n\"pieces\": [\n" + piece + "]}\n";
}

const std::string sheet = R"({"id": "s", "width": 100, "height": 100, "cost": 1})";
const std::string square = R"({"id": "p", "width": 10, "height": 10, "count": 1})";

} // namespace

TEST_CASE("every problem of a job is told at once, with file, line and field", "[layout_job]") {
    const std::string text = complaint("{\n"
                                       "\"gaol\": \"least_cost\",\n"                     // 2
                                       "\"kerf\": \"thin\",\n"                           // 3
                                       "\"stock\": [\n"                                  // 4
                                       "  {\"id\": \"s\", \"width\": 100},\n"            // 5
                                       "  {\"id\": 7, \"width\": true, \"height\": 1,\n" // 6
                                       "   \"count\": 2.5, \"offcut\": 1,\n"             // 7
                                       "   \"margin\": {\"lft\": 1, \"top\": []}},\n"    // 8
                                       "  12\n"                                          // 9
                                       "],\n"
                                       "\"pieces\": [\n"
                                       "  {\"id\": \"p\", \"width\": 1, \"height\": null,\n" // 12
                                       "   \"turn\": \"ninety\"}\n"                          // 13
                                       "]}\n");
    const auto lines = {
        "job.json:2: there is no member \"gaol\" (did you mean goal?)",
        "job.json:3, kerf: is text; expected a number",
        "job.json:5, stock[0].height: is missing (expected a number)",
        "job.json:6, stock[1].id: is a number; expected text",
        "job.json:6, stock[1].width: is true or false; expected a number",
        "job.json:7, stock[1].count: is not a whole number",
        "job.json:7, stock[1].offcut: is not true or false",
        "job.json:8, stock[1].margin: there is no member \"lft\" (did you mean left?)",
        "job.json:8, stock[1].margin.top: is a list; expected a number",
        "job.json:9, stock[2]: is not an object",
        "job.json:12, pieces[0].height: is null; expected a number",
        "job.json:12, pieces[0].count: is missing (expected how many are wanted)",
        "job.json:13, pieces[0].turn: \"ninety\" is not a turn (expected none, half or quarter)",
    };
    for (const char* line : lines) CHECK_THAT(text, Catch::Contains(line));
    CHECK(std::count(text.begin(), text.end(), '\n') + 1 == static_cast<long>(lines.size()));
}

TEST_CASE("lists that are missing or something else are told", "[layout_job]") {
    CHECK_THAT(complaint("{}"),
               Catch::Contains("stock: is missing") && Catch::Contains("pieces: is missing"));
    CHECK_THAT(complaint(R"({"stock": {}, "pieces": 3})"),
               Catch::Contains("stock: is not a list") && Catch::Contains("pieces: is not a list"));
    CHECK_THAT(complaint("[]"), Catch::Contains("job.json:1: is a list; expected an object"));
    CHECK_THAT(complaint("null"), Catch::Contains("is null; expected an object"));
    CHECK(complaint(R"({"stock": [], "pieces": []})") != "(accepted)");
}

TEST_CASE("a goal there is not is told with those there are", "[layout_job]") {
    for (const char* goal : {"\"cheapest\"", "3", "null", "[]"})
        CHECK_THAT(complaint(job(sheet, square, std::string("\"goal\": ") + goal + ",")),
                   Catch::Contains("goal") && Catch::Contains("expected least_cost or most_value"));
}

TEST_CASE("sizes that cannot be are refused with their line and field", "[layout_job]") {
    for (const char* width : {"0", "-5", "-0.001"}) {
        INFO(width);
        const std::string piece =
            std::string(R"({"id": "p", "height": 10, "count": 1, "width": )") + width + "}";
        CHECK_THAT(complaint(job(sheet, piece)), Catch::Contains("job.json:5, pieces[0].width"));
    }
    CHECK_THAT(complaint(job(sheet, R"({"id": "p", "width": 1, "height": 1, "count": -1})")),
               Catch::Contains("job.json:5, pieces[0].count"));
    CHECK_THAT(complaint(job(sheet, R"({"id": "p", "width": 1, "height": 1, "count": 10000001})")),
               Catch::Contains("job.json:5, pieces[0].count"));
    CHECK_THAT(complaint(job(R"({"id": "s", "width": 10, "height": 10, "cost": -1})", square)),
               Catch::Contains("job.json:3, stock[0].cost"));
    CHECK_THAT(complaint(job(sheet, square, "\"kerf\": -1,")), Catch::Contains("job.json:1, kerf"));
    CHECK_THAT(complaint(job(sheet, R"({"id": "p", "width": 1, "height": 1,
                   "count": 1000000000000000000})")),
               Catch::Contains("1000000000000000000 is too large")
                   && Catch::Contains("at most 10000000"));
    CHECK_THAT(
        complaint(job(sheet, R"({"id": "p", "width": 1, "height": 1, "count": 1, "turn": 90})")),
        Catch::Contains("pieces[0].turn: is a number") && Catch::Contains("none, half or quarter"));
}

TEST_CASE("ids that are there twice or empty are refused with the later line", "[layout_job]") {
    CHECK_THAT(complaint(job(sheet + ",\n" + sheet, square)),
               Catch::Contains("job.json:4, stock[1].id"));
    CHECK_THAT(complaint(job(sheet, square + ",\n" + square)),
               Catch::Contains("job.json:6, pieces[1].id"));
    CHECK_THAT(complaint(job(sheet, R"({"id": "", "width": 1, "height": 1, "count": 1})")),
               Catch::Contains("pieces[0].id"));
}

TEST_CASE("numbers beyond all bounds are refused, never wrapped or rounded", "[layout_job]") {
    const auto with_width = [](const std::string& width) {
        return complaint(
            job(sheet, R"({"id": "p", "height": 10, "count": 1, "width": )" + width + "}"));
    };
    for (const char* huge :
         {"1e12", "1e15", "1e300", "1e-300", "99999999999999999999999", "0.0000000001",
          "3.00000000000000000001", "1e-99999", "9223372036854775807", "-9223372036854775808",
          "123456789.123456789123"}) {
        INFO(huge);
        CHECK_THAT(with_width(huge), Catch::Contains("pieces[0]"));
    }
    CHECK_THAT(with_width("NaN"), Catch::Contains("job.json:5: is not JSON"));
    CHECK_THAT(with_width("Infinity"), Catch::Contains("is not JSON"));
    CHECK_THAT(with_width("1e400"), Catch::Contains("job.json:5")); // beyond every double
    CHECK_THAT(with_width("1e99999"), Catch::Contains("job.json:5"));
    CHECK_THAT(complaint(job(R"({"id": "s", "width": 2, "height": 2, "cost": 1e15})",
                             R"({"id": "p", "width": 0.000000001, "height": 1, "count": 1},
                                {"id": "q", "width": 1, "height": 1, "count": 1, "value": 0.000000001})")),
               Catch::Contains("job.json"));
}

TEST_CASE("a sheet's area that no number holds is refused with its place", "[layout_job]") {
    CHECK_THAT(
        complaint(job(R"({"id": "s", "width": 9999999.123456789, "height": 9999999.5})", square)),
        Catch::Contains("job.json:3, stock[0]"));
}

TEST_CASE("lengths and sizes are not mixed in one job", "[layout_job]") {
    const std::string text = complaint(job(R"({"id": "s", "length": 100})", square));
    CHECK_THAT(text, Catch::Contains("job.json:5, pieces[0].length: is missing"));
}

TEST_CASE("a member that is there twice is refused, not the last one taken", "[layout_job]") {
    CHECK_THAT(
        complaint(job(sheet, R"({"id": "p", "width": 1, "width": 2, "height": 1, "count": 1})")),
        Catch::Contains("job.json:5: \"width\" is there twice"));
}

TEST_CASE("a count may be missing only where a sheet is to be filled", "[layout_job]") {
    const std::string open = R"({"id": "p", "width": 1, "height": 1})";
    CHECK_THAT(complaint(job(sheet, open)), Catch::Contains("pieces[0].count: is missing"));
    CHECK(complaint(job(sheet, open, "\"goal\": \"most_value\",")) == "(accepted)");
    // In a job of least cost, no limit is no demand either.
    CHECK(complaint(job(sheet, R"({"id": "p", "width": 1, "height": 1, "count": null})"))
          != "(accepted)");
}
