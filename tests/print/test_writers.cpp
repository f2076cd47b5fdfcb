#include "print/markup.hpp"

#include "base/text.hpp"
#include "print/json/values.hpp"
#include "print/making/plan_drawing.hpp"
#include "print/text/harmless.hpp"
#include "print/write/html.hpp"
#include "print/write/table_csv.hpp"
#include "print/write/terminal.hpp"
#include "reading/csv_table.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstdint>

using namespace barrow::print;
using barrow::test::tags_of;
using barrow::test::texts_of;

namespace {

/// A code point in UTF-8 (RFC 3629, section 3).
std::string utf8(std::uint32_t code) {
    const auto tail = [&](unsigned shift) {
        return static_cast<char>(0x80U | ((code >> shift) & 0x3FU));
    };
    if (code < 0x80) return {static_cast<char>(code)};
    if (code < 0x800) return {static_cast<char>(0xC0U | (code >> 6U)), tail(0)};
    return {static_cast<char>(0xE0U | (code >> 12U)), tail(6), tail(0)};
}

/// Every control character: C0, DEL and C1 (ISO 6429), the line and paragraph separators, and the
/// bidirectional controls (Unicode Standard Annex 9, section 2).
std::vector<std::uint32_t> controls() {
    std::vector<std::uint32_t> codes = {0x61C, 0x200E, 0x200F, 0x2028, 0x2029};
    for (std::uint32_t code = 0; code < 0x20; ++code) codes.push_back(code);
    for (std::uint32_t code = 0x7F; code < 0xA0; ++code) codes.push_back(code);
    for (std::uint32_t code = 0x202A; code <= 0x202E; ++code) codes.push_back(code);
    for (std::uint32_t code = 0x2066; code <= 0x2069; ++code) codes.push_back(code);
    return codes;
}

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

/// One block of each kind with the text in it wherever a text can be.
Blocks everywhere(const std::string& text) {
    Blocks blocks(text);
    blocks.add(Heading{text});
    blocks.add(Text{text});
    blocks.add(note(text));
    blocks.add(Facts{text, text, {{text, {{text, Cell(text), text, true}}}}});
    Table table({{text}, {"", Kind::label, true, text + "2"}});
    table.row({link(Link::To::journal, text), text});
    blocks.add(table);
    blocks.add(Steps{{text}});
    blocks.add(Cautions{{text}, text});
    return blocks;
}

std::string without_doctype(const std::string& page) {
    return page.substr(page.find('\n') + 1);
}

std::string drawn(const std::string& text) {
    barrow::layout::Job job;
    barrow::layout::Stock stock;
    stock.id = text;
    stock.width = 100;
    stock.height = 100;
    job.stock.push_back(stock);
    barrow::layout::Plan plan;
    barrow::layout::Placed piece;
    piece.place = {0, 0, 90, 90};
    plan.pieces.push_back(piece);
    DrawingWords words;
    words.title = text;
    words.pieces = {text};
    words.measure = [&](barrow::layout::Measure) { return text; };
    return drawing(job, plan, words);
}

} // namespace

TEST_CASE("no control character reaches a terminal or a page", "[print][control]") {
    const auto lines = [](const std::string& text) {
        return std::count(text.begin(), text.end(), '\n');
    };
    const Blocks plain = everywhere("a b");
    for (const std::uint32_t code : controls()) {
        INFO("U+" << std::hex << code);
        const std::string sign = utf8(code);
        const Blocks blocks = everywhere("a" + sign + "b");
        const std::string screen = terminal(blocks);
        const std::string page = html_page(blocks);
        const std::string picture = drawn("a" + sign + "b");
        CHECK(lines(screen) == lines(terminal(plain))); // none begins a false line
        CHECK(lines(page) == lines(html_page(plain)));
        CHECK(lines(picture) == lines(drawn("a b")));
        if (code != '\n') {
            CHECK_FALSE(contains(screen, sign));
            CHECK_FALSE(contains(page, sign));
            CHECK_FALSE(contains(picture, sign));
        }
        CHECK(barrow::base::is_utf8(screen + page + picture));
        tags_of(without_doctype(page));
        tags_of(picture);
    }
}

TEST_CASE("control characters are untouched in JSON and in CSV", "[print][control]") {
    for (const std::uint32_t code : controls()) {
        INFO("U+" << std::hex << code);
        const std::string text = "a" + utf8(code) + "b";
        Json document = begin("test");
        document["note"] = text;
        const std::string written = finished(document);
        CHECK(nlohmann::json::parse(written).at("note") == text);
        if (code < 0x20) CHECK(written.find(text) == std::string::npos); // RFC 8259, section 7
        Table table({{"note"}, {"other"}});
        table.row({text, "x"});
        const auto read =
            barrow::reading::read_csv(table_csv(table), "notes.csv", {"note", "other"});
        REQUIRE(read.rows.size() == 1);
        CHECK(read.rows[0].cells.at(0) == text);
    }
}

TEST_CASE("a text is made harmless without losing what it says", "[print][control]") {
    CHECK(harmless("two\r\nlines\tand\nmore") == "two lines and more");
    CHECK(harmless("\x1B[31mred") == "\xEF\xBF\xBD[31mred");
    CHECK(harmless(std::string("a\0b", 3))
          == "a\xEF\xBF\xBD"
             "b");
    CHECK(harmless("caf\xC3\xA9 \xE2\x80\x93 \xF0\x9F\x93\x93")
          == "caf\xC3\xA9 \xE2\x80\x93 \xF0\x9F\x93\x93");
    // Bytes that are no UTF-8: a lone continuation, an overlong slash, a surrogate, a cut end.
    CHECK(harmless("\x80"
                   "a")
          == "\xEF\xBF\xBD"
             "a");
    CHECK(harmless("\xC0\xAF") == "\xEF\xBF\xBD\xEF\xBF\xBD");
    CHECK(barrow::base::is_utf8(harmless("\xED\xA0\x80 \xE2\x80")));
}

TEST_CASE("hostile names stay text on a page", "[print][html]") {
    for (const std::string name :
         {"<script>alert(1)</script>", "\"><img src=x onerror=alert(1)>", "O'Neil & Daughter <o'n>",
          "]]> --> <!--", "&amp; &lt;b&gt;", "' onmouseover='x"}) {
        INFO(name);
        const Address address = [](const Link& to) {
            return std::string(name_of(to.to)) + "/" + to.code;
        };
        const std::string page = html_page(everywhere(name), address);
        for (const barrow::test::Tag& tag : tags_of(without_doctype(page))) {
            CHECK(tag.name != "script");
            CHECK(tag.name != "img");
            for (const auto& [attribute, value] : tag.with) CHECK(attribute.substr(0, 2) != "on");
        }
        const auto texts = texts_of(without_doctype(page));
        CHECK(std::count(texts.begin(), texts.end(), name) >= 10);
        CHECK_FALSE(contains(html(everywhere(name)), "<a ")); // no address, no link
        CHECK(contains(page, "<a href=\"journal/"));
    }
}

TEST_CASE("tables head their rows and columns, and align numbers", "[print][html]") {
    Table table({{"Code", Kind::label},
                 {"", Kind::text, false, "Level"},
                 {"Value", Kind::money},
                 {"Nothing"}});
    table.row({"MOSS", "low", Cell("12.40", Kind::money)});
    Blocks blocks("Stock");
    blocks.add(table);
    CHECK_THAT(html(blocks),
               Catch::Contains("<th scope=\"col\">Code</th><th scope=\"col\">Level</th>"
                               "<th scope=\"col\" class=\"n\">Value</th></tr>")
                   && Catch::Contains("<th scope=\"row\">MOSS</th><td>low</td>"
                                      "<td class=\"n\">12.40</td>")
                   && !Catch::Contains("Nothing"));
}

TEST_CASE("a table comes back from CSV cell by cell", "[print][csv]") {
    Table table({{"Entry", Kind::count},
                 {"Note"},
                 {"Value", Kind::money},
                 {"", Kind::text, false, "Empty"}});
    const std::vector<std::vector<std::string>> rows = {{"1", "a, \"b\"\nc", "-12.40", ""},
                                                        {"2", " spaces ", "0.00", ""}};
    for (std::size_t r = 0; r < rows.size(); ++r) {
        if (r == 1) table.gap();
        table.row(
            {Cell(rows[r][0], Kind::count), rows[r][1], Cell(rows[r][2], Kind::money), rows[r][3]});
    }
    const auto read = barrow::reading::read_csv(table_csv(table), "table.csv",
                                                {"entry", "note", "value", "empty"});
    CHECK(read.columns == std::vector<std::string>{"entry", "note", "value", "empty"});
    REQUIRE(read.rows.size() == rows.size());
    for (std::size_t r = 0; r < rows.size(); ++r) CHECK(read.rows[r].cells == rows[r]);
    // Text is not run by a spreadsheet; a number is left as it is.
    Table formula({{"Note"}, {"Value", Kind::money}});
    formula.row({"=1+1", Cell("-3.00", Kind::money)});
    CHECK(table_csv(formula) == "note,value\n'=1+1,-3.00\n");
    const Table twice({{"Value"}, {"Value"}, {""}, {"of which waste"}});
    CHECK(csv_columns(twice)
          == std::vector<std::string>{"value", "value_2", "column", "of_which_waste"});
}

TEST_CASE("a narrow terminal breaks text and columns that wrap", "[print]") {
    Blocks blocks("Long");
    std::string words;
    for (int i = 0; i < 40; ++i) words += (i > 0 ? " word" : "word") + std::to_string(i);
    blocks.add(Text{words, 4}, 2);
    Table table({{"Entry", Kind::count}, {"Note", Kind::text, true}});
    table.row({count(1), words});
    blocks.add(table);
    for (const std::size_t columns : {60, 80, 100}) {
        std::istringstream lines(terminal(blocks, columns));
        for (std::string line; std::getline(lines, line);)
            CHECK(barrow::base::display_width(line) <= columns);
    }
}
