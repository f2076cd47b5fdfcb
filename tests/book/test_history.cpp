#include "book/shop.hpp"

#include "reading/csv_table.hpp"

#include <catch2/catch.hpp>

#include <charconv>

using barrow::test::Shop;
using barrow::test::stock_up;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

json entries(Shop& shop, const std::string& what) {
    return shop.json("history " + what).at("entries");
}

std::vector<std::string> told(const json& lines) {
    std::vector<std::string> words;
    for (const auto& line : lines) words.push_back(line.at("what"));
    return words;
}

/// Pence of "12.40" or "-0.05".
long pence(const std::string& money) {
    std::string digits;
    for (const char c : money)
        if (c != '.') digits += c;
    return std::stol(digits);
}

/// Not stod, which takes the decimal point of the locale.
double decimal(const std::string& written) {
    double value = 0;
    std::from_chars(written.data(), written.data() + written.size(), value);
    return value;
}

/// A shop in which a little of everything has happened.
void busy(Shop& shop) {
    stock_up(shop);
    shop.done({"make", "leaflet", "--make", "5", "--note", "for the spring fair"});
    shop.done("journal sell 1-01 --price 9");
    shop.done("journal give 1-02 --note Ada");
    shop.done({"journal", "apart", "1-03", "--get", "ENV=2", "--get", "MOSS=150mm x 100mm"});
    shop.done("write-off ENV --units 4 --note wet");
    const auto wet = std::to_string(shop.entry());
    shop.done({"reverse", wet, "--note", "they dried"});
    shop.done("batch plan leaflet --make 2");
    shop.done("batch cut 2");
    shop.done("batch abandon 2");
}

} // namespace

TEST_CASE("a material's history tells every movement with its entry, who and why", "[history]") {
    Shop shop;
    busy(shop);
    const auto lines = entries(shop, "material ENV");
    const std::vector<std::string> expected = {"received from Pellwether Papermakers",
                                               "received from Pellwether Papermakers",
                                               "taken for batch 1",
                                               "went into the journals of batch 1",
                                               "came back out of journal 1-03",
                                               "written off",
                                               "entry 8 taken back",
                                               "taken for batch 2",
                                               "put back from batch 2"};
    CHECK(told(lines) == expected);
    CHECK(lines[2].at("who") == "Wren Aldous");
    CHECK(lines[2].at("note") == "for the spring fair");
    CHECK(lines[2].at("day") == "2027-03-06");
    CHECK(lines[2].at("quantity") == 15);
    CHECK(lines[2].at("change") == "out");
    CHECK(lines[2].at("after").at("quantity") == 85);
    CHECK(lines[2].at("after").at("value") == "9.50");
    CHECK(lines[3].at("change") == "");
    CHECK(lines[3].at("after") == lines[2].at("after"));
    CHECK(lines[6].at("note") == "they dried");
    CHECK(lines[6].at("reverses") == 8);
    CHECK(lines.back().at("after").at("quantity") == 87);
    const std::string screen = shop.done("history material ENV");
    CHECK_THAT(screen, Contains("Material ENV, Brown envelope"));
    CHECK_THAT(screen, Contains("-15 pieces") && Contains("they dried"));
    CHECK_THAT(screen, Contains("All entered by Wren Aldous."));
}

TEST_CASE("a material's history ends at what is on hand, and its changes add up to it",
          "[history]") {
    Shop shop;
    busy(shop);
    for (const auto& material : shop.list("stock", "materials")) {
        const std::string code = material.at("code");
        INFO(code);
        const auto lines = entries(shop, "material " + code);
        REQUIRE(!lines.empty());
        CHECK(lines.back().at("after").at("value") == material.at("value"));
        CHECK(lines.back().at("after").at("units") == material.at("on_hand"));
        long sum = 0;
        for (const auto& line : lines) {
            const long moved = pence(line.at("value"));
            if (line.at("change") == "in") sum += moved;
            if (line.at("change") == "out") sum -= moved;
            CHECK(pence(line.at("after").at("value")) == sum);
            CHECK(sum >= 0);
        }
    }
}

TEST_CASE("a lot's history is the part of its material's that is of the lot", "[history]") {
    Shop shop;
    busy(shop);
    std::vector<std::string> of_lots;
    std::size_t all = 0;
    for (const auto& lot : shop.list("lots ENV", "lots")) {
        const auto lines = entries(shop, "lot " + lot.at("lot").dump());
        all += lines.size();
        CHECK(lines.front().at("what") == "received from Pellwether Papermakers");
        CHECK(lines.back().at("after").at("value") == lot.at("value"));
    }
    CHECK(all == entries(shop, "material ENV").size());
}

TEST_CASE("an offcut's history begins where it was cut and ends where it went", "[history]") {
    Shop shop;
    busy(shop);
    std::string label;
    for (const auto& offcut : shop.list("offcut list", "offcuts"))
        if (offcut.at("material") == "RIB") label = offcut.at("code");
    REQUIRE(!label.empty());
    CHECK(told(entries(shop, "offcut " + label)).front().substr(0, 15) == "kept from batch");
    shop.done({"write-off", "--offcut", label, "--note", "frayed"});
    const auto lines = entries(shop, "offcut " + label);
    CHECK(lines.back().at("what") == "written off");
    CHECK(lines.back().at("note") == "frayed");
    CHECK(lines.back().at("after").at("value") == "0.00");
    CHECK(lines.back().at("after").at("quantity") == 0);
    // Labels may be typed as they come.
    CHECK(shop.json("history offcut " + label).at("code") == label);
}

TEST_CASE("a batch's history shows its planning, and what is in work after each step",
          "[history]") {
    Shop shop;
    busy(shop);
    const auto lines = entries(shop, "batch 2");
    CHECK(lines.front().at("what") == "planned, stock reserved");
    CHECK(lines.front().at("movement") == "");
    CHECK(lines.back().at("after").at("value") == "0.00");
    const auto words = told(lines);
    const auto has = [&](const std::string& what) {
        return std::find(words.begin(), words.end(), what) != words.end();
    };
    CHECK(has("taken from the shelf"));
    CHECK(has("put back on the shelf"));
    CHECK(has("given up, written off"));
    long in_work = 0;
    for (const auto& line : lines) {
        const long moved = pence(line.at("value"));
        in_work += line.at("change") == "in" ? moved : line.at("change") == "out" ? -moved : 0;
        CHECK(pence(line.at("after").at("value")) == in_work);
    }
    CHECK_THAT(shop.done("history batch 2"), Contains("In work now: worth 0.00 GBP."));
}

TEST_CASE("a planned batch that was taken back says so", "[history]") {
    Shop shop;
    stock_up(shop);
    shop.done("batch plan leaflet --make 2");
    const auto planned = std::to_string(shop.entry());
    shop.done("reverse " + planned);
    CHECK(
        told(entries(shop, "batch 1"))
        == std::vector<std::string>{"planned, stock reserved", "entry " + planned + " taken back"});
}

TEST_CASE("a journal's history tells what became of it", "[history]") {
    Shop shop;
    busy(shop);
    const auto sold = entries(shop, "journal 1-01");
    CHECK(told(sold) == std::vector<std::string>{"finished", "sold for 9.00"});
    CHECK(sold.back().at("price") == "9.00");
    CHECK(told(entries(shop, "journal 1-02")).back() == "given away");
    CHECK(entries(shop, "journal 1-02").back().at("note") == "Ada");
    CHECK(told(entries(shop, "journal 1-03"))
          == std::vector<std::string>{"finished", "taken apart: what is used again",
                                      "taken apart: the rest of it written off"});
    CHECK(told(entries(shop, "journal 1-04")) == std::vector<std::string>{"finished"});
    CHECK_THAT(shop.done("history journal 1-04"), Contains("in hand"));
    CHECK_THAT(shop.done("history journal 1-01"), Contains("gone"));
}

TEST_CASE("histories of things there are not are refused, with the nearest", "[history]") {
    Shop shop;
    busy(shop);
    CHECK_THAT(shop.refused(3, "history material EVN"), Contains("ENV"));
    CHECK_THAT(shop.refused(3, "history lot 99999"), Contains("lots"));
    CHECK_THAT(shop.refused(3, "history lot moss"), Contains("not a number"));
    CHECK_THAT(shop.refused(3, "history batch 7"), Contains("batch list"));
    CHECK_THAT(shop.refused(3, "history journal 1-4"), Contains("1-04"));
    CHECK_THAT(shop.refused(3, "history offcut 22-3"), Contains("label"));
    CHECK_THAT(shop.refused(2, "history matreial ENV"), Contains("material"));
    CHECK_THAT(shop.refused(2, "--json history material ENV --csv"), Contains("--csv"));
}

TEST_CASE("a material nothing happened to says just that", "[history]") {
    Shop shop;
    shop.import("material import", "code,name,form\nTAG,Paper tag,count\n");
    CHECK_THAT(shop.done("history material TAG"), Contains("nothing has happened"));
    CHECK(entries(shop, "material TAG").empty());
}

TEST_CASE("a history as CSV adds up by its own columns", "[history][csv]") {
    Shop shop;
    busy(shop);
    for (const std::string code : {"MOSS", "RIB", "ENV", "GLUE"}) {
        INFO(code);
        const std::vector<std::string> columns = {
            "entry",          "day",        "recorded_at",     "who",
            "note",           "what",       "material",        "quantity",
            "unit",           "value",      "quantity_change", "value_change",
            "quantity_after", "value_after"};
        const auto table = barrow::reading::read_csv(
            shop.done("history material " + code + " --csv"), code, columns);
        REQUIRE(table.columns == columns);
        REQUIRE(table.rows.size() == entries(shop, "material " + code).size());
        long value = 0;
        double quantity = 0; // millimetres of the screen, added up as a spreadsheet would
        for (const auto& row : table.rows) {
            value += pence(row.cells[11]);
            quantity += decimal(row.cells[10]);
            CHECK(value == pence(row.cells[13]));
            CHECK(quantity == Approx(decimal(row.cells[12])));
        }
    }
}
