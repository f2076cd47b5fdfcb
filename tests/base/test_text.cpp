#include "base/error.hpp"
#include "base/text.hpp"

#include <catch2/catch.hpp>

using namespace barrow::base;

TEST_CASE("edit distance counts insertions, deletions, replacements and swaps", "[text]") {
    // kitten and sitting: the usual textbook pair (Wikipedia, "Levenshtein distance"), 3.
    CHECK(edit_distance("kitten", "sitting") == 3);
    CHECK(edit_distance("", "abc") == 3);
    CHECK(edit_distance("abcd", "abdc") == 1);
    CHECK(edit_distance("FERN-12", "fern-12") == 0);
}

TEST_CASE("near codes are offered, far ones are not", "[text]") {
    const std::vector<std::string> codes = {"FERN-12", "FERN-6", "HERON", "BOARD-300"};
    CHECK(nearest("FERN12", codes) == std::vector<std::string>{"FERN-12", "FERN-6"});
    CHECK(nearest("zebra", codes).empty());
    CHECK(nearest("board", codes) == std::vector<std::string>{"BOARD-300"});
    CHECK(did_you_mean("FERN12", codes) == "did you mean FERN-12 or FERN-6?");
    CHECK(did_you_mean("zebra", codes).empty());
}

TEST_CASE("display width counts columns, not bytes", "[text]") {
    CHECK(display_width("plain") == 5);
    CHECK(display_width("caf\u00e9") == 4);
    CHECK(display_width("e\u0301") == 1);
    CHECK(display_width("\u7d19") == 2);
    CHECK(display_width("\xff") == 1);
}

TEST_CASE("UTF-8 is recognised and broken UTF-8 is not", "[text]") {
    CHECK(is_utf8("caf\u00e9 \u7d19"));
    CHECK_FALSE(is_utf8("caf\xe9"));
    CHECK_FALSE(is_utf8("\xc0\x80"));     // overlong
    CHECK_FALSE(is_utf8("\xed\xa0\x80")); // a surrogate
    CHECK_FALSE(is_utf8("\xe2\x82"));     // cut short
}

TEST_CASE("an error prints all its problems, one a line, hints in brackets", "[error]") {
    const Error error(Kind::bad_input,
                      std::vector<Problem>{{"a.csv:2, width", "is empty", "give a length"},
                                           {"a.csv:5", "has 3 fields"}});
    CHECK(std::string(error.what())
          == "a.csv:2, width: is empty (give a length)\na.csv:5: has 3 fields");
    CHECK(static_cast<int>(error.kind()) == 3);
}
