#include "print/csv/csv_text.hpp"
#include "reading/csv_table.hpp"
#include "reading/rows.hpp"

#include <catch2/catch.hpp>

#include <random>

using barrow::print::CsvCell;
using barrow::print::CsvText;
using barrow::print::defused;
using barrow::reading::as_written;

namespace {

std::string line_of(const std::vector<CsvCell>& cells) {
    CsvText text(std::vector<std::string>(cells.size(), "c"));
    const std::size_t head = text.text().size();
    text.row(cells);
    return text.text().substr(head);
}

} // namespace

TEST_CASE("cells are quoted as RFC 4180 says", "[csv]") {
    // RFC 4180, section 2, rules 5 to 7 (read from memory).
    CHECK(line_of({"aaa", "bbb", "ccc"}) == "aaa,bbb,ccc\n");
    CHECK(line_of({"aaa", "b\nbb", "ccc"}) == "aaa,\"b\nbb\",ccc\n");
    CHECK(line_of({"aaa", "b\"bb", "ccc"}) == "aaa,\"b\"\"bb\",ccc\n");
    CHECK(line_of({"a,b", "", "c\r\nd"}) == "\"a,b\",,\"c\r\nd\"\n");
    CHECK(line_of({" a", "b "}) == "\" a\",\"b \"\n");
    CHECK(line_of({""}) == "\"\"\n");
}

TEST_CASE("texts that a spreadsheet would run are defused, numbers are not", "[csv]") {
    // The signs of OWASP's page "CSV Injection" (from memory): = + - @ tab, carriage return.
    CHECK(line_of({"=1+2"}) == "'=1+2\n");
    CHECK(line_of({"+44 20", "-5% off", "@Ada"}) == "'+44 20,'-5% off,'@Ada\n");
    CHECK_THAT(line_of({"\t=A1"}), Catch::Equals("\"'\t=A1\"\n") || Catch::Equals("'\t=A1\n"));
    CHECK(line_of({"=SUM(A1,A2)"}) == "\"'=SUM(A1,A2)\"\n");
    CHECK(line_of({CsvCell::number("-12.40"), CsvCell::number("")}) == "-12.40,\n");
    CHECK_THROWS(CsvCell::number("=1"));
    CHECK(line_of({"'tis", "a=b", "don't"}) == "'tis,a=b,don't\n");
}

TEST_CASE("defusing is taken off again without doubt", "[csv]") {
    CHECK(as_written("'=1") == "=1");
    CHECK(as_written("''=1") == "'=1");
    CHECK(as_written("'tis") == "'tis");
    CHECK(as_written("=1") == "=1"); // written by hand, without an apostrophe
    CHECK(as_written("'") == "'");
    CHECK(as_written("") == "");
    // Every text of these signs up to five long comes back, and none begins as a formula.
    const std::string signs = "'=-a\t";
    std::vector<std::string> texts = {""};
    for (int length = 0; length < 5; ++length) {
        std::vector<std::string> longer;
        for (const std::string& text : texts) {
            CHECK(as_written(defused(text)) == text);
            if (!text.empty())
                CHECK(std::string("=+-@\t\r").find(defused(text).front()) == std::string::npos);
            for (const char sign : signs) longer.push_back(text + sign);
        }
        texts = std::move(longer);
    }
}

TEST_CASE("what is written is read back by the CSV library", "[csv]") {
    // libcsv is the reader: it knows nothing of the writer.
    std::mt19937_64 random(41);
    const std::vector<std::string> pieces = {",", "\"", "\n", "\r\n", "'",  "=",    "+", "-",
                                             "@", "a",  "é",  "紙",   " b", "\"\"", ";", "0"};
    std::vector<std::vector<std::string>> rows;
    CsvText text({"x", "y", "z"});
    for (int r = 0; r < 400; ++r) {
        std::vector<std::string> row;
        for (int c = 0; c < 3; ++c) {
            std::string cell = c == 0 ? "r" : ""; // a row of nothing would be no row
            for (std::size_t n = random() % 6; n > 0; --n) cell += pieces[random() % pieces.size()];
            row.push_back(cell);
        }
        text.row({row.begin(), row.end()});
        rows.push_back(row);
    }
    const auto table = barrow::reading::read_csv(text.text(), "test", {"x", "y", "z"});
    REQUIRE(table.rows.size() == rows.size());
    for (std::size_t r = 0; r < rows.size(); ++r)
        for (std::size_t c = 0; c < 3; ++c) {
            REQUIRE(as_written(table.rows[r].cells[c]) == rows[r][c]);
        }
}
