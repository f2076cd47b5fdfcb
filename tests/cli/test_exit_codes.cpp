#include "book/shop.hpp"
#include "cli/run.hpp"

#include "store/dump.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

#include <catch2/catch.hpp>

#include <sstream>

using namespace barrow::test;
using Catch::Matchers::Contains;

// Exit codes: 0 done, 1 refused, 2 wrong use of the command line, 3 bad input data, 4 the shop file
// is damaged, locked or from a newer version, 5 the machine failed.

namespace {

struct Said {
    int code = 0;
    std::string out, err;
};

Said run_with(const std::map<std::string, std::string>& environment,
              const std::vector<std::string>& words) {
    std::ostringstream out;
    std::ostringstream err;
    std::istringstream in;
    barrow::cli::World world{out, err, in, environment, "2027-03-06T09:30:00Z"};
    const int code = barrow::cli::run(words, world);
    return {code, out.str(), err.str()};
}

} // namespace

TEST_CASE("1: what the book forbids is refused and changes nothing", "[cli][exit]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 1");
    const std::string before = dump(shop.path());
    CHECK_THAT(shop.refused(1, "make leaflet --make 100"), Contains("short"));
    CHECK_THAT(shop.refused(1, "write-off ENV --units 101 --note wet"), Contains("ENV"));
    CHECK_THAT(shop.refused(1, "batch finish 1"), Contains("finished"));
    CHECK_THAT(shop.refused(1, "init --currency GBP"), Contains("exists already"));
    CHECK_THAT(shop.refused(1, "settings currency EUR"), Contains("currency"));
    CHECK_THAT(shop.refused(1, "supplier add PELL --name Other"), Contains("there already"));
    CHECK_THAT(shop.refused(1, "stocktake post"), Contains("stocktake"));
    CHECK(dump(shop.path()) == before);
}

TEST_CASE("2: wrong use of the command line is told with what would be right", "[cli][exit]") {
    Shop shop;
    CHECK_THAT(shop.refused(2, "stok"), Contains("stock"));
    CHECK_THAT(shop.refused(2, "stock --bogus"), Contains("--help"));
    CHECK_THAT(shop.refused(2, "journal"), Contains("sell"));
    shop.refused(2, std::vector<std::string>{});
    CHECK_THAT(shop.refused(2, "cost leaflet --make none"), Contains("--make"));
    CHECK_THAT(shop.refused(2, "cost leaflet --make 0"), Contains("--make"));
    CHECK_THAT(shop.refused(2, "cost"), Contains("design"));
    CHECK_THAT(shop.refused(2, "cost leaflet --make 1 --set pages"), Contains("--set"));
    CHECK_THAT(shop.refused(2, "settings hourlyrate 3"), Contains("hourly-rate"));
    CHECK_THAT(shop.refused(2, "export birds"), Contains("export --help"));
    CHECK_THAT(shop.refused(2, "write-off ENV --units 1"), Contains("--note is required"));
}

TEST_CASE("2: a pair that is none is told as it was written, with what to write", "[cli][exit]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 1");
    shop.done("batch plan leaflet --make 1");
    shop.done("fair new May --on 2027-03-06");
    const std::string before = dump(shop.path());
    struct Pair {
        std::string command, option, form;
    };
    const std::vector<Pair> pairs = {{"order place PELL", "", "SM-REED=20"},
                                     {"order place PELL MOSS=20 --price", "--price", "name=value"},
                                     {"cost leaflet --set", "--set", "name=value"},
                                     {"cost leaflet --lot", "--lot", "--lot FERN-12=17"},
                                     {"batch cut 2 --spoiled", "--spoiled", "CODE=NUMBER"},
                                     {"batch cut 2 --remnant", "--remnant", "NUMBER=none"},
                                     {"batch cut 2 --extra", "--extra", "CODE=SIZE"},
                                     {"journal apart 1-01 --get", "--get", "CLASP-BR=2"}};
    for (const Pair& pair : pairs)
        for (const char* text : {"MOSS", "=3", "MOSS="}) {
            const std::string said = shop.refused(2, pair.command + " " + text);
            CHECK_THAT(said, Contains((pair.option.empty() ? "" : pair.option + " ") + "\"" + text
                                      + "\" is not understood"));
            CHECK_THAT(said, Contains(pair.form));
        }
    // Where a number may be left out.
    for (const char* text : {"=3", "leaflet=", "leaflet=0", "leaflet=2.5", "leaflet=10001"})
        for (const char* command : {"reorder ", "fair take 1 "})
            CHECK_THAT(shop.refused(2, command + std::string(text)),
                       Contains("\"" + std::string(text) + "\" is not understood"));
    CHECK(shop.json("reorder leaflet") == shop.json("reorder leaflet=1"));
    // The first "=" divides.
    CHECK_THAT(shop.refused(3, "order place PELL MOSS=3=4"), Contains("\"3=4\""));
    CHECK(dump(shop.path()) == before);
}

TEST_CASE("4: a shop that cannot be trusted is not used", "[cli][exit]") {
    Shop shop;
    const auto other = shop.folder() / "other.db";
    const auto at_other = [&](const std::string& line) {
        auto words = Shop::words_of(line);
        words.insert(words.begin(), {"--shop", other.string()});
        return shop.refused(4, words);
    };
    CHECK_THAT(at_other("stock"), Contains("there is no shop") && Contains("barrow init"));
    CHECK_FALSE(std::filesystem::exists(other));
    write_bytes(other, "shopping list");
    CHECK_THAT(at_other("stock"), Contains("not a shop"));
    write_bytes(other, bytes_of(shop.path()));
    {
        SQLite::Database sql(other.string(), SQLite::OPEN_READWRITE);
        sql.exec("PRAGMA user_version = 77");
    }
    CHECK_THAT(at_other("check"), Contains("version 77"));
    stock_up(shop);
    {
        SQLite::Database sql(shop.path().string(), SQLite::OPEN_READWRITE);
        sql.exec("UPDATE balance SET value = value + 1 WHERE may_owe = 0");
    }
    auto said = shop.run("check --json");
    CHECK(said.code == 4);
    const auto document = nlohmann::json::parse(said.out);
    CHECK(document.at("ok") == false);
    CHECK(document.at("problems").size() > 1);
    CHECK(shop.run("check").code == 4);
}

TEST_CASE("5: a machine that fails is told apart from a mistake", "[cli][exit]") {
    Shop shop;
    stock_up(shop);
    CHECK_THAT(shop.refused(5, "material import /no/such/file.csv"), Contains("/no/such/file.csv"));
    CHECK_THAT(shop.refused(5, "backup /no/such/folder/copy.db"), Contains("/no/such/folder"));
    auto words = Shop::words_of("init --currency GBP --shop /proc/barrow/shop.db");
    shop.refused(5, words);
    // Output that goes nowhere.
    std::ostringstream out;
    std::ostringstream err;
    std::istringstream in;
    out.setstate(std::ios::badbit);
    barrow::cli::World world{
        out, err, in, {{"BARROW_SHOP", shop.path().string()}}, "2027-03-06T09:30:00Z"};
    CHECK(barrow::cli::run({"stock"}, world) == 5);
}

TEST_CASE("the shop is the one named, else the environment's, else that of the data folder",
          "[cli][shop]") {
    const ScratchFolder folder;
    const std::string named = (folder / "named.db").string();
    const std::string fromenv = (folder / "env.db").string();
    const std::string data = (folder / "data").string();
    const std::string home = (folder / "home").string();
    const std::vector<std::string> init = {"init", "--currency", "GBP"};
    const auto made = [&](const std::map<std::string, std::string>& environment,
                          std::vector<std::string> words) {
        const Said said = run_with(environment, words);
        INFO(said.err);
        CHECK(said.code == 0);
    };
    const std::map<std::string, std::string> all = {
        {"BARROW_SHOP", fromenv}, {"XDG_DATA_HOME", data}, {"HOME", home}};
    made(all, {"--shop", named, "init", "--currency", "GBP"});
    CHECK(std::filesystem::exists(named));
    CHECK(folder.files() == 1);
    made(all, init);
    CHECK(std::filesystem::exists(fromenv));
    made({{"XDG_DATA_HOME", data}, {"HOME", home}}, init);
    CHECK(std::filesystem::exists(folder / "data/paperbarrow/shop.db"));
    made({{"HOME", home}}, init);
    CHECK(std::filesystem::exists(folder / "home/.local/share/paperbarrow/shop.db"));
    // XDG Base Directory Specification 0.8: a path that is not absolute is to be ignored.
    CHECK(run_with({{"XDG_DATA_HOME", "data"}, {"HOME", home}}, init).code == 1);
    CHECK(run_with({}, init).code == 2);
}
