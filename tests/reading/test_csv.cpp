#include "base/error.hpp"
#include "reading/csv_table.hpp"
#include "reading/rows.hpp"

#include <catch2/catch.hpp>

#include <random>

using namespace barrow::reading;
using barrow::base::Error;
using barrow::base::Kind;

namespace {

const std::vector<std::string> known = {"code", "name", "note", "pack_price"};

CsvTable read(const std::string& text) {
    return read_csv(text, "papers.csv", known);
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

using Cells = std::vector<std::string>;

} // namespace

TEST_CASE("cells are read as RFC 4180 writes them", "[csv]") {
    const CsvTable table = read("code,name,note\n"
                                "A,plain,\n"
                                "B,\"with, a comma\",\"and \"\"quotes\"\"\"\n"
                                "C,\"over\ntwo lines\",x\n");
    CHECK(table.columns == Cells{"code", "name", "note"});
    REQUIRE(table.rows.size() == 3);
    CHECK(table.rows[0].cells == Cells{"A", "plain", ""});
    CHECK(table.rows[1].cells == Cells{"B", "with, a comma", "and \"quotes\""});
    CHECK(table.rows[2].cells == Cells{"C", "over\ntwo lines", "x"});
}

TEST_CASE("a row knows the line it begins on, whatever stands before it", "[csv]") {
    const CsvTable table = read("code,name\n" // 1
                                "\n"          // 2: empty
                                "A,\"one\n"   // 3
                                "two\n"       // 4
                                "three\"\n"   // 5
                                "B,b\n"       // 6
                                ",\n"         // 7: nothing in it
                                "\"C\n"       // 8
                                "c\",x\n"     // 9
                                "D,d");       // 10, no line break at the end
    REQUIRE(table.rows.size() == 4);
    CHECK(table.rows[0].line == 3);
    CHECK(table.rows[1].line == 6);
    CHECK(table.rows[2].line == 8);
    CHECK(table.rows[3].line == 10);
}

TEST_CASE("files of other systems and spreadsheets are read alike", "[csv]") {
    const CsvTable unix = read("code,name\nA,\"x, y\"\nB,z\n");
    for (const char* text : {"code,name\r\nA,\"x, y\"\r\nB,z\r\n", // line ends of DOS
                             "\xEF\xBB\xBF"
                             "code,name\nA,\"x, y\"\nB,z\n", // a byte order mark
                             "\xEF\xBB\xBF\"code\",name\r\nA,\"x, y\"\r\nB,z",
                             "Code , NAME\nA,\"x, y\"\nB,z\n"}) { // titles as people write
        const CsvTable other = read(text);
        CHECK(other.columns == unix.columns);
        REQUIRE(other.rows.size() == unix.rows.size());
        for (std::size_t i = 0; i < unix.rows.size(); ++i) {
            CHECK(other.rows[i].cells == unix.rows[i].cells);
            CHECK(other.rows[i].line == unix.rows[i].line);
        }
    }
}

TEST_CASE("a row may leave its last cells out, but not have more than there are columns", "[csv]") {
    CHECK(read("code,name,note\nA\n").rows[0].cells == Cells{"A"});
    CHECK_THAT(complaint("code,name\nA,b\nB,c,d\nC,e,f,g\n"),
               Catch::Contains("papers.csv:3: has 3 cells, but there are 2 columns")
                   && Catch::Contains("papers.csv:4: has 4 cells"));
}

TEST_CASE("columns that are unknown or there twice are named with their place", "[csv]") {
    CHECK_THAT(complaint("code,nmae,pack price\nA,b,c\n"),
               Catch::Contains("papers.csv:1, column 2: there is no column \"nmae\"")
                   && Catch::Contains("did you mean name or note?") && Catch::Contains("column 3"));
    CHECK_THAT(complaint("code,quux\nA,b\n"),
               Catch::Contains("columns: code, name, note, pack_price"));
    CHECK_THAT(complaint("\n\ncode,name,Code\nA,b,c\n"),
               Catch::Contains("papers.csv:3, column 1: the column \"code\" is there twice"));
}

TEST_CASE("a file that separates with semicolons or tabs is told so", "[csv]") {
    CHECK_THAT(complaint("code;name\nA;b\n"),
               Catch::Contains("papers.csv:1") && Catch::Contains("semicolons or tabs"));
    CHECK_THAT(complaint("code\tname\nA\tb\n"), Catch::Contains("semicolons or tabs"));
}

TEST_CASE("a quotation mark in a wrong place is named with its line", "[csv]") {
    CHECK_THAT(complaint("code,name\nA,b\nB,5\" wide\n"),
               Catch::Contains("papers.csv:3: is not CSV"));
    CHECK_THAT(complaint("code,name\nA,\"b\"c\n"), Catch::Contains("papers.csv:2: is not CSV"));
    CHECK_THAT(complaint("code,name\nA,\"never closed\nB,c\n"), Catch::Contains("is not CSV"));
}

TEST_CASE("empty and foreign files are refused in words", "[csv]") {
    CHECK_THAT(complaint(""), Catch::Contains("papers.csv: is empty"));
    CHECK_THAT(complaint("\n \n"), Catch::Contains("papers.csv: is empty"));
    CHECK_THAT(complaint("code,name\nA,caf\xE9\n"), Catch::Contains("is not UTF-8"));
    CHECK(read("code,name\n").rows.empty());
    CHECK(read("code,name\nA,caf\xC3\xA9\n").rows[0].cells[1] == "caf\xC3\xA9");
}

TEST_CASE("rows for the use cases know their file, line and columns", "[csv]") {
    const auto rows = rows_of(read("code,name\nA,b\n\nB,\n"));
    REQUIRE(rows.size() == 2);
    CHECK(rows[0].where == "papers.csv:2");
    CHECK(rows[1].where == "papers.csv:4");
    CHECK(rows[0].fields.at("name") == "b");
    CHECK(rows[1].fields.at("name").empty());
}

TEST_CASE("tables of random cells come back as they were written", "[csv]") {
    std::mt19937_64 random(17);
    const std::string signs = "ab ,\"\n\r;\t\xC3\xA9";
    for (int round = 0; round < 400; ++round) {
        std::vector<Cells> rows;
        std::string text = "code,name,note\n";
        for (std::uint64_t r = 0; r < 1 + random() % 6; ++r) {
            Cells cells;
            for (int c = 0; c < 3; ++c) {
                std::string cell = c == 0 ? "x" : "";
                for (std::uint64_t i = 0; i < random() % 8; ++i) {
                    const std::size_t at = random() % (signs.size() - 1);
                    cell += at == signs.size() - 2 ? signs.substr(at) : signs.substr(at, 1);
                }
                cells.push_back(cell);
                std::string quoted;
                for (const char sign : cell)
                    quoted += sign == '"' ? std::string("\"\"") : std::string(1, sign);
                text += "\"" + quoted + "\"" + (c < 2 ? "," : "\r\n");
            }
            rows.push_back(cells);
        }
        const CsvTable table = read(text);
        CAPTURE(text);
        REQUIRE(table.rows.size() == rows.size());
        for (std::size_t r = 0; r < rows.size(); ++r) REQUIRE(table.rows[r].cells == rows[r]);
    }
}

TEST_CASE("no bytes whatever make the reader fall over", "[csv]") {
    std::mt19937_64 random(23);
    const std::string signs = "code,name\n\"\"\r;x\xEF\xBB\xBF\0";
    for (int round = 0; round < 3000; ++round) {
        std::string text;
        for (std::uint64_t i = 0; i < random() % 60; ++i) text += signs[random() % signs.size()];
        try {
            read(text);
        } catch (const Error& error) {
            REQUIRE(error.kind() == Kind::bad_input);
        }
    }
    SUCCEED();
}
