#include "book/shop.hpp"

#include "cli/commands.hpp"
#include "cli/help.hpp"
#include "cli/topics.hpp"

#include <catch2/catch.hpp>

#include <fstream>
#include <map>
#include <sstream>

using namespace barrow::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// The words of a line as a shell would part them: blanks inside double quotes stay.
std::vector<std::string> typed(const std::string& line) {
    std::vector<std::string> words;
    bool quoted = false;
    bool begun = false;
    for (const char c : line + " ") {
        if (c == '"') {
            quoted = !quoted;
        } else if (c == ' ' && !quoted) {
            begun = false;
        } else {
            if (!begun) words.emplace_back();
            begun = true;
            words.back() += c;
        }
    }
    return words;
}

/// All commands with their examples, read from the program's own description.
std::map<std::string, std::vector<std::string>> examples() {
    std::ostringstream out;
    std::istringstream in;
    barrow::cli::World world{out, out, in, {}, "2027-03-06T09:30:00Z"};
    barrow::cli::Shell shell(world);
    barrow::cli::Command program;
    barrow::cli::describe(program, shell);
    std::map<std::string, std::vector<std::string>> found;
    barrow::cli::for_each_command(program, [&](const barrow::cli::Command& command) {
        if (command.above != nullptr && command.commands.empty())
            found[command.path()] = command.examples;
    });
    return found;
}

/// Works in another folder until it goes.
class InFolder {
public:
    explicit InFolder(const fs::path& folder) : before_(fs::current_path()) {
        fs::current_path(folder);
    }
    ~InFolder() { fs::current_path(before_); }
    InFolder(const InFolder&) = delete;
    InFolder& operator=(const InFolder&) = delete;

private:
    fs::path before_;
};

/// The demo shop after a week: everything received, four Quayside and eight Pebble journals made,
/// an order placed, a fair noted, batch 3 planned, batch 4 cut, a stocktake open.
void make_demo_shop(Shop& shop) {
    for (const char* line :
         {"supplier import suppliers.csv", "material import materials.csv",
          "receive --from receipts.csv", "design bring designs/quayside.toml designs/pebble.toml",
          "make quayside --make 4", "make pebble --make 2", "order place PELL SM-REED=2packs",
          "batch plan quayside --make 2", "batch plan pebble --make 2", "batch cut 4",
          "stocktake start", "stocktake enter SM-MIST 9", "backup shop-copy.db"})
        shop.done(line);
    shop.done({"fair", "new", "Spring fair on the quay", "--on", "2027-03-06"});
    shop.done("fair take 1 1-01");
    std::ofstream("job.json") << R"({"goal": "least_cost",
        "stock": [{"id": "new", "width": 300, "height": 200, "cost": 1}],
        "pieces": [{"id": "tag", "width": 60, "height": 110, "count": 4, "turn": "quarter"}]})";
}

} // namespace

TEST_CASE("every command has an example that works in the demo shop", "[cli][help]") {
    const std::vector<std::string> options = {"--hourly-rate", "12.50"};
    Shop shop(options);
    fs::copy(BARROW_SOURCE_DIR "/demo-data", shop.folder(), fs::copy_options::recursive);
    const InFolder here(shop.folder());
    make_demo_shop(shop);
    const std::string whole = bytes_of(shop.path());
    const auto all = examples();
    CHECK(all.size() > 60);
    for (const auto& [command, lines] : all) {
        INFO(command);
        CHECK_FALSE(lines.empty());
        for (const std::string& line : lines) {
            INFO(line);
            // It is an example of this command.
            CHECK(line.rfind("barrow " + command, 0) == 0);
            write_bytes(shop.path(), whole);
            if (command == "init") fs::remove(shop.path());
            if (command == "stocktake start") shop.done("stocktake drop");
            if (command == "backup") fs::remove("shop-copy.db");
            auto words = typed(line.substr(0, line.find(" > ")));
            words.erase(words.begin());
            if (command != "open") { // runs until it is ended: tests/page does that
                const auto said = shop.run(words);
                INFO(said.err);
                CHECK(said.code == 0);
            }
            CHECK_THAT(shop.done(command + " --help"), Contains("For example:\n  " + line));
        }
    }
}

TEST_CASE("exit codes stand in the help of the program only", "[cli][help]") {
    Shop shop;
    CHECK_THAT(shop.done("--help"), Contains("Exit codes:") && Contains("BARROW_TODAY"));
    for (const auto& [command, lines] : examples())
        CHECK_THAT(shop.done(command + " --help"), !Contains("Exit codes"));
}

TEST_CASE("barrow help shows topics and commands", "[cli][help]") {
    Shop shop;
    for (const char* topic :
         {"cost-order", "offcut-value", "margin-and-markup", "joins", "units", "dates"}) {
        INFO(topic);
        const std::string page = shop.done(std::string("help ") + topic);
        CHECK(page.size() > 300);
        std::istringstream lines(page);
        for (std::string line; std::getline(lines, line);) CHECK(line.size() <= 96);
        CHECK_THAT(shop.done("help"), Contains(std::string("  ") + topic + " "));
    }
    CHECK(shop.done("help cost order") == shop.done("help cost-order"));
    CHECK(shop.done("help margin") == shop.done("help margin-and-markup"));
    CHECK(shop.done("help cost") == shop.done("cost --help"));
    CHECK(shop.done("help batch plan") == shop.done("batch plan --help"));
    // An argument may have the name of a command.
    CHECK_THAT(shop.refused(3, "cost stock"), Contains("design") && !Contains("required"));
    CHECK_THAT(shop.refused(2, "stock check"), Contains("does not expect \"check\""));
    CHECK_THAT(shop.refused(2, "help offcutvalue"), Contains("offcut-value"));
    CHECK_THAT(shop.refused(2, "help stok"), Contains("did you mean stock"));
    // 50 % on 20.00 is a third of 30.00: standard retail arithmetic, from memory.
    CHECK_THAT(shop.done("help margin"), Contains("33.3 %"));
}

TEST_CASE("commands that a help topic shows are right", "[cli][help]") {
    Shop shop;
    const auto all = examples();
    for (const auto& topic : barrow::cli::topics()) {
        for (std::size_t at = topic.text.find("barrow "); at != std::string::npos;
             at = topic.text.find("barrow ", at + 1)) {
            const std::size_t end = topic.text.find_first_of("`\n", at);
            auto words = typed(topic.text.substr(at, end - at));
            INFO(topic.text.substr(at, end - at));
            words.erase(words.begin());
            words.emplace_back("--help"); // reads the words before it, runs nothing
            const auto said = shop.run(words);
            INFO(said.err);
            CHECK(said.code == 0);
            const bool known = all.count(words[0]) + all.count(words[0] + " " + words[1]) > 0;
            CHECK(known);
            for (const std::string& word : words) {
                if (word.rfind("--", 0) != 0) continue;
                CHECK_THAT(said.out, Contains(word));
            }
        }
    }
}

TEST_CASE("one dash before a long option is explained, and wrong names are mended", "[cli][help]") {
    Shop shop;
    CHECK_THAT(shop.refused(2, "cost leaflet -make 4"), Contains("write --make"));
    CHECK_THAT(shop.refused(2, "cost leaflet -make=4"), Contains("write --make=4"));
    CHECK_THAT(shop.refused(2, "stock -json"), Contains("write --json"));
    CHECK_THAT(shop.refused(2, "cost leaflet --mke 4"), Contains("did you mean --make"));
    CHECK_THAT(shop.refused(2, "jurnal list"), Contains("did you mean journal"));
    CHECK_THAT(shop.refused(2, "journal lst"), Contains("did you mean list"));
}
