#include "book/shop.hpp"

#include "store/dump.hpp"

#include <catch2/catch.hpp>

#include <map>
#include <set>
#include <sstream>

using namespace barrow::test;
using Catch::Matchers::Contains;
using Catch::Matchers::EndsWith;
using Catch::Matchers::StartsWith;
using nlohmann::json;

namespace {

/// Names under "Commands:" in a help text. A line that goes on from the one above begins farther
/// in.
std::vector<std::string> commands_in(const std::string& help) {
    std::vector<std::string> names;
    std::istringstream lines(help.substr(std::min(help.find("\nCommands:\n"), help.size())));
    std::string line;
    std::getline(lines, line);
    std::getline(lines, line);
    while (std::getline(lines, line) && !line.empty())
        if (line.find_first_not_of(' ') == 2) names.push_back(Shop::words_of(line).at(0));
    return names;
}

/// Every command there is, found by asking the program: "cost", "batch plan", ...
std::vector<std::string> all_commands(Shop& shop) {
    std::vector<std::string> commands;
    for (const std::string& name : commands_in(shop.done("--help"))) {
        const auto under = commands_in(shop.done(name + " --help"));
        if (under.empty()) commands.push_back(name);
        for (const std::string& below : under) commands.push_back(name + " " + below);
    }
    return commands;
}

/// Commands that read, each as it can be run in the little shop, and the kind of its document.
const std::map<std::string, std::pair<std::string, std::string>> readers = {
    {"cost", {"cost leaflet --make 3", "cost"}},
    {"plan", {"plan leaflet --make 3", "cost"}},
    {"reorder", {"reorder leaflet=40 --by 2027-05-01", "reorder"}},
    {"stock", {"stock", "stock"}},
    {"value", {"value", "value"}},
    {"lots", {"lots ENV", "lots"}},
    {"log", {"log", "log"}},
    {"settings", {"settings", "settings"}},
    {"check", {"check", "check"}},
    {"history material", {"history material ENV", "history"}},
    {"history lot", {"history lot 6", "history"}},
    {"history offcut", {"history offcut 22-2", "history"}},
    {"history batch", {"history batch 1", "history"}},
    {"history journal", {"history journal 1-01", "history"}},
    {"export suppliers", {"export suppliers", "export"}},
    {"export materials", {"export materials", "export"}},
    {"export receipts", {"export receipts", "export"}},
    {"export offcuts", {"export offcuts", "export"}},
    {"export journals", {"export journals", "export"}},
    {"export stock", {"export stock", "export"}},
    {"export log", {"export log", "export"}},
    {"supplier list", {"supplier list", "suppliers"}},
    {"material list", {"material list", "materials"}},
    {"design list", {"design list", "designs"}},
    {"design show", {"design show leaflet", "design"}},
    {"design check",
     {"design check " BARROW_SOURCE_DIR "/demo-data/designs/pebble.toml", "design"}},
    {"calculate cover", {"calculate cover", "calculation"}},
    {"calculate thickness", {"calculate thickness tags=3", "calculation"}},
    {"calculate wire", {"calculate wire edge=20cm", "calculation"}},
    {"calculate ribbon", {"calculate ribbon", "calculation"}},
    {"calculate sewn", {"calculate sewn", "calculation"}},
    {"calculate rings", {"calculate rings", "calculation"}},
    {"calculate paper", {"calculate paper", "calculation"}},
    {"calculate pounds", {"calculate pounds", "calculation"}},
    {"calculate envelope", {"calculate envelope", "calculation"}},
    {"batch list", {"batch list", "batches"}},
    {"batch show", {"batch show 1", "batch"}},
    {"offcut list", {"offcut list", "offcuts"}},
    {"offcut fits", {"offcut fits", "fits"}},
    {"offcut yields", {"offcut yields 22-2", "yields"}},
    {"stocktake show", {"stocktake show", "stocktake"}},
    {"journal list", {"journal list", "journals"}},
    {"order list", {"order list", "orders"}},
    {"fair list", {"fair list", "fairs"}},
    {"fair show", {"fair show 1", "fair"}},
    {"order show", {"order show 1", "order"}},
    {"report stock", {"report stock --on 2027-02-28", "stock_on"}},
    {"report usage", {"report usage", "usage"}},
    {"report slow", {"report slow", "slow_stock"}},
    {"report offcuts", {"report offcuts", "offcut_ages"}},
    {"report year", {"report year --from 2027-01-01 --to 2027-12-31", "year"}},
};

/// Commands that write: they have no document, but --json keeps their words off the output.
const std::map<std::string, std::string> writers = {
    {"make", "make leaflet --make 1"},
    {"buy", "buy ENV --paid 5"},
    {"receive", "receive ENV --units 1 --cost 0.10"},
    {"return", "return 6 --units 1"},
    {"write-off", "write-off ENV --units 1 --note wet"},
    {"reverse", "reverse 4"},
    {"supplier add", "supplier add NEW --name New"},
    {"supplier change", "supplier change HOB --note shut"},
    {"material add", "material add TAG --name Tag --form count"},
    {"material change", "material change ENV --place shelf"},
    {"batch plan", "batch plan leaflet --make 1"},
    {"offcut found", "offcut found MOSS 60mmx60mm"},
    {"stocktake enter", "stocktake enter ENV 90"},
    {"stocktake drop", "stocktake drop"},
    {"stocktake post", "stocktake post"},
    {"journal sell", "journal sell 1-01 --price 9"},
    {"journal give", "journal give 1-01 --note Ada"},
    {"journal damage", "journal damage 1-01 --note wet"},
    {"journal change", "journal change 1-01 --place tin"},
    {"journal apart", "journal apart 1-01 --get ENV=1"},
    {"order place", "order place PELL MOSS=20"},
    {"order end", "order end 1"},
    {"fair new", "fair new May --on 2027-05-08"},
    {"fair take", "fair take 1 1-02"},
    {"fair sell", "fair sell 1 1-02 --price 9"},
    {"fair pay", "fair pay 1 travel 3"},
};

/// Writers that need a file, a label or another state first; their parts are tested elsewhere.
const std::set<std::string> other_writers = {"init",         "backup",          "restore",
                                             "layout",       "supplier import", "material import",
                                             "design bring", "batch cut",       "batch finish",
                                             "help",         "manual",          "completions",
                                             "design new",   "batch abandon",   "offcut change",
                                             "offcut split", "stocktake start", "open"};

void prepare(Shop& shop) {
    stock_up(shop);
    shop.done("make leaflet --make 5");
    shop.done("order place PELL MOSS=10");
    shop.done("fair new May --on 2027-03-06");
    shop.done("fair take 1 1-01");
    shop.done("stocktake start");
    shop.done("stocktake enter ENV 84");
}

} // namespace

TEST_CASE("every command explains itself", "[cli][help]") {
    Shop shop;
    const auto commands = all_commands(shop);
    CHECK(commands.size() > 45);
    for (const std::string& command : commands) {
        INFO(command);
        const auto said = shop.run(command + " --help");
        CHECK(said.code == 0);
        CHECK(said.err.empty());
        CHECK_THAT(said.out, Contains("Usage:") && Contains("--help"));
    }
}

TEST_CASE("every command is known to these tests as one that reads or writes", "[cli]") {
    Shop shop;
    std::set<std::string> known = other_writers;
    for (const auto& [command, how] : readers) known.insert(command);
    for (const auto& [command, how] : writers) known.insert(command);
    const auto commands = all_commands(shop);
    CHECK(known == std::set<std::string>(commands.begin(), commands.end()));
}

TEST_CASE("with --json a command that reads prints one document and nothing else", "[cli][json]") {
    Shop shop;
    prepare(shop);
    for (const auto& [command, how] : readers) {
        INFO(how.first);
        auto words = Shop::words_of(how.first);
        words.emplace_back("--json"); // after the command as well as before
        const auto said = shop.run(words);
        CHECK(said.code == 0);
        CHECK(said.err.empty());
        REQUIRE(json::accept(said.out)); // the whole output is one document
        const json document = json::parse(said.out);
        CHECK(document.at("kind") == how.second);
        CHECK(document.at("version") == 1);
        CHECK(document == shop.json(how.first));
        CHECK(said.out.back() == '\n');
        // The same without --json is words for people.
        CHECK_FALSE(json::accept(shop.done(how.first)));
    }
}

TEST_CASE("reading changes nothing in the shop", "[cli]") {
    Shop shop;
    prepare(shop);
    const std::string before = bytes_of(shop.path());
    for (const auto& [command, how] : readers) shop.done(how.first);
    CHECK(bytes_of(shop.path()) == before);
}

TEST_CASE("with --json what a writing command says goes beside the output", "[cli][json]") {
    for (const auto& [command, how] : writers) {
        INFO(how);
        Shop shop;
        prepare(shop);
        auto words = Shop::words_of(how);
        words.insert(words.begin(), "--json");
        const auto said = shop.run(words);
        INFO(said.err);
        CHECK(said.code == 0);
        CHECK(said.out.empty());
        CHECK_FALSE(said.err.empty());
        shop.sound();
    }
}

TEST_CASE("a dry run says what would be, and that nothing of it was kept", "[cli][dry-run]") {
    Shop shop;
    prepare(shop);
    shop.done("batch plan leaflet --make 2");
    shop.done("batch plan leaflet --make 2");
    shop.done("batch cut 3");
    shop.done("offcut found MOSS 60mmx120mm --place new");
    std::string free; // of any batch that waits for it
    for (const json& offcut : shop.list("offcut list", "offcuts"))
        if (offcut.at("place") == "new") free = offcut.at("code");
    write_bytes(shop.folder() / "suppliers.csv", "code,name\nNEW,New\n");
    write_bytes(shop.folder() / "materials.csv", "code,name,form\nTAG,Tag,count\n");
    std::map<std::string, std::string> asked = writers;
    asked.insert(
        {{"reorder", "reorder leaflet=40 --by 2027-05-01 --place"},
         {"batch cut", "batch cut 2"},
         {"batch finish", "batch finish 3"},
         {"batch abandon", "batch abandon 3"},
         {"offcut change", "offcut change " + free + " --place drawer"},
         {"stocktake start", "stocktake start --place drawer"},
         {"settings", "settings margin 55%"},
         {"offcut split", "offcut split " + free + " --into 60mmx60mm"},
         {"supplier import", "supplier import " + (shop.folder() / "suppliers.csv").string()},
         {"material import", "material import " + (shop.folder() / "materials.csv").string()},
         {"design bring", "design bring " BARROW_SOURCE_DIR "/demo-data/designs/pebble.toml"}});
    const std::string remark = "Nothing was kept: this was a dry run.\n";
    Shop closed; // no stocktake is open
    stock_up(closed);
    std::set<std::string> without; // no dry run
    for (const std::string& command : all_commands(shop)) {
        INFO(command);
        if (shop.done(command + " --help").find("--dry-run") == std::string::npos) {
            without.insert(command);
            continue;
        }
        REQUIRE(asked.count(command) == 1);
        Shop& here = command == "stocktake start" ? closed : shop;
        const std::string before = dump(here.path());
        const auto said = here.run(asked.at(command) + " --dry-run");
        CHECK(here.run(asked.at(command) + " -n").out == said.out);
        INFO(said.err);
        CHECK(said.code == 0);
        CHECK_FALSE(said.out.empty());
        CHECK_THAT(said.err, EndsWith(remark));
        CHECK(dump(here.path()) == before);
        if (other_writers.count(command) != 0) continue;
        // Meant, it is kept, and nothing is said of a dry run.
        Shop other;
        prepare(other);
        const std::string then = dump(other.path());
        CHECK_THAT(other.run(asked.at(command)).err, !Contains(remark));
        CHECK(dump(other.path()) != then);
    }
    // Whatever writes into the shop can be tried first. These make whole files, or none.
    std::set<std::string> files = {"init",   "backup",      "restore", "layout", "design new",
                                   "manual", "completions", "help",    "open"};
    for (const auto& [command, how] : readers)
        if (command != "settings" && command != "reorder") files.insert(command);
    CHECK(without == files);
    // Without --place nothing is kept anyway, and nothing need be said of it.
    CHECK_THAT(shop.refused(2, "reorder leaflet=40 --dry-run"), Contains("--place"));
    // What is refused was no dry run.
    CHECK_THAT(shop.refused(3, "return 99 --units 1 --dry-run"), !Contains(remark));
}

TEST_CASE("the version and the help come without a shop", "[cli][help]") {
    Shop shop;
    CHECK_THAT(shop.done("--version"), StartsWith("barrow "));
    const std::string help = shop.done("--help");
    CHECK_THAT(help, Contains("barrow init") && Contains("--shop FILE") && Contains("--json"));
    CHECK(shop.done("--shop /nowhere/shop.db --help") == help);
}
