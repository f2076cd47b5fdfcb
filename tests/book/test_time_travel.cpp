#include "base/date.hpp"
#include "book/shop.hpp"

#include <catch2/catch.hpp>

#include <map>
#include <random>

using barrow::test::Shop;
using barrow::test::stock_up;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

/// Of `stock`, what a report on a past day tells likewise: materials with something there.
json comparable(const json& stock) {
    json lines = json::array();
    for (json line : stock.at("materials")) {
        if (line.at("quantity") == 0 && line.at("offcuts") == 0 && line.at("value") == "0.00")
            continue;
        json own;
        for (const char* key : {"code", "name", "form", "on_hand", "unit", "value", "offcuts",
                                "offcut_value", "quantity", "quantity_unit"})
            own[key] = line.at(key);
        lines.push_back(own);
    }
    return lines;
}

} // namespace

TEST_CASE("stock on a past day is what stock said on that day", "[reports][time]") {
    Shop shop;
    stock_up(shop);
    std::mt19937_64 random(20270306);
    std::map<std::string, json> said;
    std::map<std::string, std::string> in_journals;
    std::vector<std::string> undoable;
    // Over two years, so that many quarters close in between, some without any entry.
    int day = 0;
    for (int step = 0; step < 24; ++step) {
        day += 1 + static_cast<int>(random() % 50);
        shop.today = "2027-03-06";
        const auto date =
            std::chrono::sys_days(std::chrono::year{2027} / 3 / 6) + std::chrono::days{day};
        shop.today = barrow::base::to_text(barrow::base::Date(date));
        switch (random() % 6) {
        case 0:
            shop.done("receive MOSS --units 7 --cost 6.66");
            shop.done("receive RIB --units 2 --cost 6.00");
            break;
        case 1: shop.done("receive ENV --units 30 --cost 3.10"); break;
        case 2:
            if (!undoable.empty()) {
                shop.run("reverse " + undoable.back());
                undoable.pop_back();
            }
            break;
        case 3: shop.done("write-off GLUE --units 1ml --note dry"); break;
        default:
            if (shop.run("make leaflet --make " + std::to_string(1 + random() % 3)).code == 0)
                undoable.push_back(std::to_string(shop.entry()));
        }
        said[shop.today] = comparable(shop.json("stock"));
        in_journals[shop.today] = shop.json("value").at("in_journals");
    }
    shop.sound();
    for (const auto& [date, stock] : said) {
        INFO(date);
        const auto then = shop.json("report stock --on " + date);
        CHECK(then.at("materials") == stock);
        CHECK(then.at("in_journals") == in_journals[date]);
    }
    const auto now = shop.json("report stock");
    CHECK(now.at("materials") == comparable(shop.json("stock")));
    CHECK(now.at("value") == shop.json("stock").at("value"));
}

TEST_CASE("an entry dated back is there from the day it is true of", "[reports][time]") {
    Shop shop;
    stock_up(shop);
    shop.today = "2027-08-01";
    shop.done("make leaflet --make 1");
    const auto before = shop.json("report stock --on 2027-04-30");
    shop.done("receive ENV --units 8 --cost 0.80 --date 2027-03-15");
    const auto envelopes = [&](const std::string& date) -> long {
        for (const auto& line : shop.list("report stock --on " + date, "materials"))
            if (line.at("code") == "ENV") return line.at("on_hand");
        return 0;
    };
    CHECK(envelopes("2027-03-14") == 100);
    CHECK(envelopes("2027-03-15") == 108);
    CHECK(envelopes("2027-04-30") == 108);
    CHECK(before != shop.json("report stock --on 2027-04-30"));
    shop.sound();
}

TEST_CASE("before anything was booked there was nothing, and tomorrow is not told",
          "[reports][time]") {
    Shop shop;
    stock_up(shop);
    CHECK(shop.json("report stock --on 2026-12-31").at("materials").empty());
    CHECK(shop.json("report stock --on 2026-12-31").at("value") == "0.00");
    CHECK_THAT(shop.refused(3, "report stock --on 2027-03-07"), Contains("not come yet"));
    CHECK_THAT(shop.refused(3, "report stock --on 31/12/2026"), Contains("--on"));
}
