#include "base/error.hpp"
#include "reading/json_tree.hpp"

#include <catch2/catch.hpp>

#include <random>

using namespace barrow::reading;
using barrow::base::Error;
using barrow::base::Kind;

namespace {

JsonNode read(const std::string& text) {
    return read_json(text, "job.json");
}

std::string complaint(const std::string& text) {
    try {
        read(text);
        return "(accepted)";
    } catch (const Error& error) {
        CHECK(error.kind() == Kind::bad_input);
        return error.what();
    }
}

} // namespace

TEST_CASE("a tree has the values of the text in their order", "[json]") {
    const JsonNode root = read(R"({"b": [1, "two", null, true], "a": {"c": false}})");
    REQUIRE(root.kind == JsonNode::Kind::object);
    REQUIRE(root.members.size() == 2);
    CHECK(root.members[0].first == "b");
    const auto& items = root.find("b")->items;
    REQUIRE(items.size() == 4);
    CHECK(items[0].text == "1");
    CHECK(items[1].text == "two");
    CHECK(items[2].kind == JsonNode::Kind::null);
    CHECK(items[3].truth);
    CHECK_FALSE(root.find("a")->find("c")->truth);
    CHECK(root.find("d") == nullptr);
}

TEST_CASE("a number keeps the digits it was written with", "[json]") {
    for (const char* written :
         {"304.8", "0.396875", "1e-3", "3.048E2", "-0.1", "0.10", "1.0",
          "123456789012345678901234567890", "0.1000000000000000055511151231257827"})
        CHECK(read(written).text == written);
    CHECK(read("12").text == "12");
    CHECK(read("-7").text == "-7");
    CHECK(read("18446744073709551615").text == "18446744073709551615");
}

TEST_CASE("every value knows its line", "[json]") {
    const JsonNode root = read("{\n"                  // 1
                               "  \"a\": 1,\n"        // 2
                               "  \"b\":\n"           // 3
                               "    2\n"              // 4: a number right before a line break
                               "  ,\n"                // 5
                               "  \"c\": [\n"         // 6
                               "    true,\r\n"        // 7
                               "    \"x\"\n"          // 8
                               "  ],\n"               // 9
                               "  \"d\": {\"e\": 3\n" // 10
                               "}}\n");
    CHECK(root.line == 1);
    CHECK(root.find("a")->line == 2);
    CHECK(root.find("b")->line == 4);
    CHECK(root.find("c")->line == 6);
    CHECK(root.find("c")->items[0].line == 7);
    CHECK(root.find("c")->items[1].line == 8);
    CHECK(root.find("d")->line == 10);
    CHECK(root.find("d")->find("e")->line == 10);
}

TEST_CASE("a member that is there twice is refused with its line", "[json]") {
    CHECK_THAT(complaint("{\"a\": 1,\n \"b\": 2,\n \"a\": 3}"),
               Catch::Contains("job.json:3: \"a\" is there twice"));
    CHECK(complaint("[{\"a\": 1}, {\"a\": 2}]") == "(accepted)"); // two objects
}

TEST_CASE("text that is not JSON is refused with its line", "[json]") {
    CHECK_THAT(complaint("{\n\"a\": 1,\n\"b\": NaN\n}"),
               Catch::Contains("job.json:3: is not JSON"));
    CHECK_THAT(complaint("{\n\"a\": 1\n\"b\": 2}"), Catch::Contains("job.json:3: is not JSON"));
    for (const char* wrong :
         {"",       "  ",      "{",       "[1,]",        "{\"a\" 1}", "Infinity", "-Infinity",
          "nan",    "01",      "1.",      ".5",          "+1",        "0x10",     "'a'",
          "{a: 1}", "[1] [2]", "\"\\x\"", "\"caf\xE9\"", "// no\n1",  "1e400",    "tru"}) {
        INFO(wrong);
        CHECK_THAT(complaint(wrong), Catch::Contains("job.json:1: is not JSON"));
    }
}

TEST_CASE("the parser's own numbering of errors is kept from the reader", "[json]") {
    CHECK_THAT(complaint("{"), !Catch::Contains("[json") && !Catch::Contains("exception"));
}

TEST_CASE("nesting beyond reason is refused instead of exhausting the stack", "[json]") {
    CHECK(complaint(std::string(40, '[') + std::string(40, ']')) == "(accepted)");
    CHECK_THAT(complaint(std::string(100'000, '[')), Catch::Contains("nested too deeply"));
}

TEST_CASE("no bytes whatever make the JSON reader fall over", "[json]") {
    std::mt19937_64 random(29);
    const std::string signs = "{}[]\",:\n\\u0019.eE-+ truefalsn\xC3\xA9";
    for (int round = 0; round < 5000; ++round) {
        std::string text;
        for (std::uint64_t i = 0; i < random() % 40; ++i) text += signs[random() % signs.size()];
        try {
            read(text);
        } catch (const Error& error) {
            REQUIRE(error.kind() == Kind::bad_input);
        }
    }
    SUCCEED();
}
