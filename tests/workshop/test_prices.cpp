#include "told.hpp"

#include "cli/run.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <sstream>

using barrow::test::Shop;
using barrow::test::stock_up;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

/// A design "note" of three envelopes at 0.10 whose work takes so long.
void keep_note(Shop& shop, const std::string& minutes, const std::string& per = "journal") {
    stock_up(shop);
    shop.design("[design]\ncode = \"note\"\nname = \"Note\"\n"
                "[materials]\nenvelope = \"ENV\"\n"
                "[[part]]\nname = \"envelopes\"\nmaterial = \"envelope\"\nnumber = 3\n"
                "[[operation]]\nname = \"fold\"\nminutes = \""
                + minutes + "\"\nper = \"" + per + "\"\n");
}

json first_journal(Shop& shop) {
    return shop.list("journal list", "journals").at(0);
}

} // namespace

TEST_CASE("until an hourly rate is set there is no price to ask", "[workshop][prices]") {
    Shop shop;
    const std::string other = (shop.folder() / "other.db").string();
    const std::string said = shop.done({"--shop", other, "init", "--currency", "GBP"});
    CHECK_THAT(said, Contains("barrow settings hourly-rate 12"));
    keep_note(shop, "30");
    // The same shop, its rate taken away.
    shop.done({"settings", "hourly-rate", "not set"});
    const json cost = shop.json("cost note --make 2");
    CHECK(cost.at("price").is_null());
    CHECK(cost.at("labour") == "0.00");
    CHECK(cost.at("labour_counted") == false);
    const std::string screen = shop.done("cost note --make 2");
    CHECK_THAT(screen, Contains("labour not counted: set hourly-rate"));
    CHECK_THAT(screen, Contains("barrow settings hourly-rate 12"));
    CHECK_THAT(screen, !Contains("Ask "));
    shop.done("make note --make 1");
    CHECK(first_journal(shop).at("asked").is_null());
    shop.done("settings hourly-rate 0"); // stated: it is wanted so
    CHECK(shop.json("cost note --make 2").at("price").at("asked") == "1.00");
    CHECK(first_journal(shop).at("asked") == "1.00");
}

TEST_CASE("init asks at a terminal for what a price hangs on", "[workshop][prices]") {
    Shop shop;
    const auto init = [&](const std::string& name, const std::string& answers,
                          const std::vector<std::string>& options) {
        std::ostringstream out;
        std::ostringstream err;
        std::istringstream in(answers);
        barrow::cli::World world{out, err, in, {}, "2027-03-06T09:30:00Z", true};
        std::vector<std::string> words = {"--shop", (shop.folder() / name).string(), "init"};
        words.insert(words.end(), options.begin(), options.end());
        REQUIRE(barrow::cli::run(words, world) == 0);
        return out.str() + err.str();
    };
    const auto setting = [&](const std::string& name, const std::string& what) {
        const std::string path = (shop.folder() / name).string();
        const json all = json::parse(shop.done({"--shop", path, "--json", "settings"}));
        return all.at("settings").at(what).get<std::string>();
    };
    CHECK_THAT(init("asked.db", "EUR\ntwelve\n12\n15\n40\n", {}), Contains("\"twelve\""));
    CHECK(setting("asked.db", "currency") == "EUR");
    CHECK(setting("asked.db", "hourly-rate") == "12.00");
    CHECK(setting("asked.db", "overheads") == "15%");
    CHECK(setting("asked.db", "margin") == "40%");
    // What is given is not asked for.
    init("given.db", "55\n", {"--currency", "JPY", "--hourly-rate", "1200", "--overheads", "0"});
    CHECK(setting("given.db", "margin") == "55%");
}

TEST_CASE("labour is booked as it was costed, to the minor unit", "[workshop][prices]") {
    // 16/11 minutes at 20.00 an hour are 0.4848..., a third of a minute at 35,000.00 is 194.444...
    const auto [minutes, rate, labour] = GENERATE(table<std::string, std::string, std::string>(
        {{"16 / 11", "20", "0.48"}, {"1 / 3", "35000", "194.44"}}));
    Shop shop({"--hourly-rate", rate});
    keep_note(shop, minutes);
    CHECK(shop.json("cost note --make 1").at("labour") == labour);
    shop.done("make note --make 1");
    CHECK(first_journal(shop).at("labour") == labour);
}

TEST_CASE("journals alike have one price, and it is what cost said", "[workshop][prices]") {
    // Three at 0.30 and 2.86 of work together: 3.76, of which one bears 1.26 and two 1.25. A third
    // of it, 1.25333, at a margin of 50 % is 2.5067: above 2.50, so 3.00 is asked.
    Shop shop({"--hourly-rate", "20"});
    keep_note(shop, "8.58", "batch");
    const json cost = shop.json("cost note --make 3");
    CHECK(cost.at("total") == "3.76");
    CHECK(cost.at("price").at("asked") == "3.00");
    shop.done("make note --make 3");
    shop.done({"fair", "new", "Quay", "--on", "2027-05-01"});
    shop.done("fair take 1 note=3");
    for (const auto& journal : shop.list("journal list", "journals"))
        CHECK(journal.at("asked") == "3.00");
    for (const auto& journal : shop.list("fair show 1", "journals"))
        CHECK(journal.at("asked") == "3.00");
    const std::string csv = shop.done("export journals");
    CHECK(std::count(csv.begin(), csv.end(), '\n') == 4);
    CHECK_THAT(csv, Contains(",3.00,0.30,"));
}
