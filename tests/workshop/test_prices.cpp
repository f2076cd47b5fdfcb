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

TEST_CASE("what is to be bought bears freight as the last receipt did", "[workshop][prices]") {
    // Ten at 10.00 came with 1.00 of freight, before that ten with none. Thirty are wanted and
    // twenty there, so ten are short: 10.00 and 10 % freight. A price of the pack is taken without.
    Shop shop;
    shop.done("material add PIN --name Pin --form count");
    shop.done("receive PIN --units 10 --cost 10.00 --date 2027-03-01");
    shop.design("[design]\ncode = \"card\"\nname = \"Card\"\n[materials]\npin = \"PIN\"\n"
                "[[part]]\nname = \"pin\"\nmaterial = \"pin\"\nnumber = 1\n");
    const auto short_of = [&](const std::string& line) {
        const auto shortages = shop.list(line, "shortages");
        return std::pair(shortages.at(0).at("cost").get<std::string>(),
                         shortages.at(0).at("freight_percent").get<double>());
    };
    CHECK(short_of("cost card --make 20") == std::pair(std::string("10.00"), 0.0));
    CHECK_THAT(shop.done("cost card --make 20"), !Contains("freight"));
    shop.done("receive PIN --units 10 --cost 10.00 --freight 1.00 --date 2027-03-02");
    CHECK(short_of("cost card --make 30") == std::pair(std::string("11.00"), 10.0));
    CHECK_THAT(shop.done("cost card --make 30"),
               Contains("as on the last receipt") && Contains("PIN 10 %."));
    shop.done("material change PIN --pack 20 --pack-price 30.00");
    CHECK(short_of("cost card --make 30") == std::pair(std::string("16.50"), 10.0));
    // What is ordered is the goods.
    CHECK(shop.list("reorder card=30", "orders").at(0).at("total") == "30.00");
    // Also once all of it is used up, and not by a receipt that was taken back.
    shop.done("receive PIN --units 10 --cost 10.00 --freight 5.00 --date 2027-03-03");
    shop.done("reverse " + std::to_string(shop.entry()));
    shop.done("make card --make 20");
    CHECK(short_of("cost card --make 10") == std::pair(std::string("16.50"), 10.0));
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

TEST_CASE("a price is fixed when a journal goes along to a fair, and a sale takes the price asked",
          "[workshop][prices]") {
    // Each costs 0.30 and an hour of 10.00: at a margin of 50 % 20.60 is asked for it, 21.00 with
    // steps of 0.50. At 60 % it is 25.75, so 26.00.
    Shop shop({"--hourly-rate", "10", "--margin", "50%", "--price-step", "0.50"});
    keep_note(shop, "60");
    shop.done("make note --make 3");
    shop.done({"fair", "new", "Quay", "--on", "2027-03-06"});
    shop.done("fair take 1 1-01 1-02");
    const auto taken = std::to_string(shop.entry());
    shop.done("settings margin 60%");
    const auto asked = [&] {
        std::vector<std::string> all;
        for (const auto& one : shop.list("journal list", "journals"))
            all.push_back(one.at("asked"));
        return all;
    };
    CHECK(asked() == std::vector<std::string>{"21.00", "21.00", "26.00"});
    CHECK(shop.list("fair show 1", "journals").at(0).at("asked") == "21.00");
    CHECK_THAT(shop.done("export journals"), Contains(",21.00,") && Contains(",26.00,"));
    // Another price of its own goes first; emptied, the fixed one is asked again.
    shop.done("journal change 1-02 --price 19.00");
    CHECK(asked() == std::vector<std::string>{"21.00", "19.00", "26.00"});
    shop.done("journal change 1-02 --price -");
    CHECK(asked() == std::vector<std::string>{"21.00", "21.00", "26.00"});
    CHECK_THAT(shop.done("fair sell 1 1-01"), Contains("21.00 GBP taken"));
    CHECK_THAT(shop.done("journal sell 1-03"), Contains("26.00 GBP taken"));
    // Off the list again, it is asked for as the others are.
    shop.done("reverse " + std::to_string(shop.entry() - 1));
    shop.done("reverse " + taken);
    CHECK(asked() == std::vector<std::string>{"26.00", "26.00"});
    shop.sound();
}

TEST_CASE("a sale without any price says what to do", "[workshop][prices]") {
    Shop shop({"--hourly-rate", "not set"});
    keep_note(shop, "60");
    shop.done("make note --make 1");
    CHECK_THAT(shop.refused(3, "journal sell 1-01"),
               Contains("--price") && Contains("barrow settings hourly-rate"));
    CHECK_THAT(shop.done("journal sell 1-01 --price 4.00"), Contains("4.00 GBP taken"));
}
