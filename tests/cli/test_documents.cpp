#include "book/shop.hpp"

#include <catch2/catch.hpp>

#include <regex>

using namespace barrow::test;
using nlohmann::json;

// The documents other programs rely on: their names and the types of their values.

namespace {

bool is_money(const json& value) {
    static const std::regex form("-?[0-9]+\\.[0-9]{2}");
    return value.is_string() && std::regex_match(value.get<std::string>(), form);
}

} // namespace

TEST_CASE("stock: materials with what is on hand of each", "[cli][documents]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 1");
    const json stock = shop.json("stock");
    CHECK(stock.at("kind") == "stock");
    REQUIRE(stock.at("materials").size() == 4);
    for (const json& line : stock.at("materials")) {
        for (const char* text : {"code", "name", "form", "unit"}) CHECK(line.at(text).is_string());
        CHECK(line.at("on_hand").is_number());
        CHECK(line.at("offcuts").is_number_integer());
        CHECK(is_money(line.at("value")));
    }
    const json& glue = stock.at("materials").at(1);
    CHECK(glue.at("code") == "GLUE");
    CHECK(glue.at("form") == "bulk");
    CHECK(glue.at("on_hand") == 98);
    CHECK(glue.at("unit") == "ml");
}

TEST_CASE("value: where all the money is, and that none is missing", "[cli][documents]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 2");
    shop.done("journal sell 1-01 --price 9");
    shop.done("write-off ENV --units 3 --note wet");
    shop.done("batch plan leaflet --make 1");
    shop.done("batch cut 2");
    const json value = shop.json("value");
    long sum = 0;
    const auto pence = [&](const char* name) {
        CHECK(is_money(value.at(name)));
        std::string digits = value.at(name);
        digits.erase(digits.find('.'), 1);
        return std::stol(digits);
    };
    for (const char* name :
         {"on_shelf", "in_offcuts", "in_work", "in_journals", "sold", "written_off"}) {
        CHECK(pence(name) > 0);
        sum += pence(name);
    }
    CHECK(sum == pence("received"));
    CHECK(value.at("difference") == "0.00");
}

TEST_CASE("check: whether all is well, and what is not", "[cli][documents]") {
    Shop shop;
    const json check = shop.json("check");
    CHECK(check.at("kind") == "check");
    CHECK(check.at("ok") == true);
    CHECK(check.at("problems") == json::array());
}

TEST_CASE("cost: lines, totals, a price, what is short and the plan", "[cli][documents]") {
    Shop shop({"--hourly-rate", "10.00", "--overheads", "10%"});
    stock_up(shop);
    const auto said = shop.run("cost leaflet --make 30 --set=x=1");
    CHECK(said.code == 3); // there is no parameter x
    const json cost = shop.json("cost leaflet --make 30");
    CHECK(cost.at("design") == "leaflet");
    CHECK(cost.at("make") == 30);
    for (const json& line : cost.at("lines")) {
        for (const char* text : {"part", "material", "unit"}) CHECK(line.at(text).is_string());
        CHECK(line.at("quantity").is_number());
        for (const char* money : {"cost", "cost_new", "cost_offcuts", "waste_cost"})
            CHECK(is_money(line.at(money)));
    }
    for (const char* money : {"materials", "labour", "overheads", "total", "unit_cost"})
        CHECK(is_money(cost.at(money)));
    CHECK(cost.at("price").is_object());
    REQUIRE(cost.at("shortages").size() == 1);
    CHECK(cost.at("shortages").at(0).at("material") == "RIB");
    CHECK(cost.at("plan").is_object());
    CHECK(shop.json("log").at("entries").size() == 3); // it wrote nothing
}

TEST_CASE("money has as many digits as its currency", "[cli][documents]") {
    // ISO 4217: yen none, Kuwaiti dinar three.
    for (const auto& [code, price] :
         std::vector<std::pair<std::string, std::string>>{{"JPY", "800"}, {"KWD", "8.125"}}) {
        const ScratchFolder folder;
        const std::string file = (folder / "shop.db").string();
        Shop shop;
        shop.done({"init", "--shop", file, "--currency", code});
        shop.done({"material", "add", "TAG", "--name", "Tag", "--form", "count", "--shop", file});
        shop.done({"receive", "TAG", "--units", "3", "--cost", price, "--shop", file});
        const json value = json::parse(shop.done({"value", "--json", "--shop", file}));
        CHECK(value.at("on_shelf") == price);
        CHECK(value.at("currency") == code);
    }
}
