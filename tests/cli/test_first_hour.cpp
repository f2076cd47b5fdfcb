#include "book/shop.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <fstream>
#include <sstream>

// From an empty table to a price, in the commands a person would type and with no file edited. The
// shop, its materials and prices are invented.

using barrow::test::Shop;
using Catch::Matchers::Contains;

namespace {

using Words = std::vector<std::string>;

/// Types the commands in the shop's folder, each of which must do what it says; gives what the
/// last one printed.
std::string typed(Shop& shop, const std::vector<Words>& commands) {
    std::string said;
    for (const Words& words : commands) said = shop.done(words);
    return said;
}

/// "14.99" in pence. (std::stod would go by the locale.)
std::int64_t pence_of(const nlohmann::json& amount) {
    std::string text = amount.get<std::string>();
    text.erase(text.find('.'), 1);
    return std::stoll(text);
}

/// The asking price of one journal, worked out again from what `cost` says it is made of.
void check_price(Shop& shop, const std::string& design, std::int64_t make) {
    const auto cost = shop.json("cost " + design + " --make " + std::to_string(make));
    CHECK(cost["shortages"].empty());
    CHECK(cost["warnings"].empty());
    const auto pence = [&](const char* key) { return pence_of(cost[key]); };
    CHECK(pence("labour") > 0);
    std::int64_t lines = 0;
    for (const auto& line : cost["lines"]) {
        INFO(line.dump());
        lines += pence_of(line["cost"]);
    }
    CHECK(lines == pence("materials"));
    CHECK(pence("materials") + pence("labour") + pence("overheads") == pence("total"));
    // A margin of 40 % of the price, rounded up to half pounds.
    const std::int64_t least = (pence("total") * 100 + 60 * make - 1) / (60 * make);
    const auto price = pence_of(cost["price"]["asked"]);
    CHECK(price % 50 == 0);
    CHECK(price >= least);
    CHECK(price < least + 50);
    CHECK_THAT(shop.done("cost " + design + " --make " + std::to_string(make)),
               Contains("Ask ") && !Contains("labour not counted"));
}

const Words begins = {"--hourly-rate", "13",           "--overheads", "10%",           "--margin",
                      "40%",           "--price-step", "0.50",        "--price-below", "0.00"};

void write_text(const std::filesystem::path& path, const std::string& text) {
    std::ofstream(path) << text;
}

} // namespace

TEST_CASE("twelve commands from an empty table to a price of one's own journal on a wire",
          "[first-hour]") {
    Shop shop(begins); // the first command: barrow init
    const std::vector<Words> commands = {
        {"buy", "Patterned pad", "--code", "PAT", "--sheet", "8in x 8in", "--pack", "48", "--paid",
         "14.99"},
        {"buy", "Plain pad", "--code", "PLA", "--sheet", "8in x 8in", "--pack", "24", "--paid",
         "6.40"},
        {"buy", "Bookboard", "--code", "BRD", "--sheet", "420mm x 594mm", "--caliper", "0.4mm",
         "--pack", "10", "--paid", "8.00"},
        {"buy", "Manila envelope", "--code", "ENV", "--size", "110mm x 155mm", "--caliper",
         "0.12mm", "--pack", "50", "--paid", "4.50"},
        {"buy", "Wire 5/8", "--code", "WIR", "--strip", "23", "--pitch", "2:1", "--diameter",
         "5/8in", "--pack", "12", "--paid", "9.60"},
        {"buy", "Green ribbon", "--code", "RIB", "--reel", "25m", "--paid", "5.20"},
        {"buy", "Paper glue", "--code", "GLUE", "--bottle", "250ml", "--paid", "4.00"},
        {"design",
         "new",
         "wire",
         "--code",
         "harbour",
         "--name",
         "Harbour",
         "--file",
         (shop.folder() / "harbour.toml").string(),
         "--set",
         "envelopes=12",
         "--set",
         "envelope_wide=110mm",
         "--set",
         "envelope_long=155mm",
         "--use",
         "board=BRD",
         "--use",
         "outside=PAT",
         "--use",
         "inside=PLA",
         "--use",
         "envelope=ENV",
         "--use",
         "wire=WIR",
         "--use",
         "ribbon=RIB",
         "--use",
         "paste=GLUE"},
        {"cost", "harbour", "--make", "2"}};
    CHECK(commands.size() + 1 <= 12);
    CHECK_THAT(typed(shop, commands), Contains("One journal costs") && Contains("Ask "));
    check_price(shop, "harbour", 2);
    // The cover by hand: 110 + 2 x 20 = 150; 150 + 30 + 150 + 30 + 40 and four folds of 0.4 mm.
    const auto shown = shop.json("design show harbour");
    CHECK(shown["cover"]["length"] == 401.6);
    CHECK(shown["cover"]["height"] == 195);
    shop.sound();
}

TEST_CASE("the same from spreadsheets in six commands", "[first-hour]") {
    Shop shop(begins);
    write_text(shop.folder() / "materials.csv",
               "code,name,form,width,height,length,loops,bulk_unit,caliper,pitch,diameter,pack\n"
               "PAT,Patterned pad,sheet,8in,8in,,,,,,,48\nPLA,Plain pad,sheet,8in,8in,,,,,,,24\n"
               "BRD,Bookboard,sheet,420mm,594mm,,,,0.4mm,,,10\n"
               "ENV,Manila envelope,count,110mm,155mm,,,,0.12mm,,,50\n"
               "WIR,Wire 5/8,wire,,,,23,,,2:1,5/8in,12\nRIB,Green ribbon,length,,,25m,,,,,,1\n"
               "GLUE,Paper glue,bulk,,,,,ml,,,,250ml\n");
    write_text(shop.folder() / "receipts.csv",
               "material,packs,cost\nPAT,1,14.99\nPLA,1,6.40\nBRD,1,8.00\nENV,1,4.50\nWIR,1,9.60\n"
               "RIB,1,5.20\nGLUE,1,4.00\n");
    const std::vector<Words> commands = {
        {"material", "import", (shop.folder() / "materials.csv").string()},
        {"receive", "--from", (shop.folder() / "receipts.csv").string()},
        {"design",
         "new",
         "wire",
         "--code",
         "harbour",
         "--name",
         "Harbour",
         "--file",
         (shop.folder() / "harbour.toml").string(),
         "--set",
         "envelope_wide=110mm",
         "--set",
         "envelope_long=155mm",
         "--use",
         "board=BRD",
         "--use",
         "outside=PAT",
         "--use",
         "inside=PLA",
         "--use",
         "envelope=ENV",
         "--use",
         "wire=WIR",
         "--use",
         "ribbon=RIB",
         "--use",
         "paste=GLUE"},
        {"cost", "harbour", "--make", "2"}};
    CHECK(commands.size() + 1 <= 6);
    CHECK_THAT(typed(shop, commands), Contains("Ask "));
    check_price(shop, "harbour", 2);
}

TEST_CASE("a cloth-covered sewn journal from an empty table in twelve commands", "[first-hour]") {
    Shop shop(begins);
    const std::vector<Words> commands = {
        {"buy", "Grey board", "--code", "GREY", "--sheet", "420mm x 594mm", "--caliper", "2mm",
         "--pack", "5", "--paid", "9.00"},
        {"buy", "Teal cloth", "--code", "CLOTH", "--sheet", "500mm x 700mm", "--paid", "7.50"},
        {"buy", "Endpaper", "--code", "ENDS", "--sheet", "297mm x 420mm", "--caliper", "0.16mm",
         "--pack", "10", "--paid", "3.00"},
        {"buy", "Drawing paper", "--code", "PAGES", "--sheet", "297mm x 420mm", "--caliper",
         "0.14mm", "--pack", "50", "--paid", "6.00"},
        {"buy", "Mull", "--code", "MULL", "--sheet", "300mm x 1m", "--paid", "4.00"},
        {"buy", "Linen thread", "--code", "THREAD", "--reel", "50m", "--paid", "4.80"},
        {"buy", "Paste", "--code", "PASTE", "--bottle", "500ml", "--paid", "5.00"},
        {"design",         "new",         "case",
         "--code",         "loom",        "--name",
         "Loom",           "--file",      (shop.folder() / "loom.toml").string(),
         "--use",          "board=GREY",  "--use",
         "covering=CLOTH", "--use",       "endpaper=ENDS",
         "--use",          "pages=PAGES", "--use",
         "lining=MULL",    "--use",       "thread=THREAD",
         "--use",          "paste=PASTE"},
        {"cost", "loom", "--make", "1"}};
    CHECK(commands.size() + 1 <= 12);
    CHECK_THAT(typed(shop, commands), Contains("Ask "));
    check_price(shop, "loom", 1);
    // By hand: 48 leaves of 0.14 mm and 4 of 0.16 mm are 7.36 mm, with 15 % for air 8.464 mm, so
    // the spine is 10 mm; boards of 120 + 3 - 7 = 116 mm; 116 + 7 + 10 + 7 + 116 = 256 mm of case.
    const auto shown = shop.json("design show loom");
    CHECK(shown["cover"]["length"] == 256);
    CHECK(shown["cover"]["height"] == 176);
    shop.sound();
}

TEST_CASE("a new design lists what fits where it is not said what it is made of", "[first-hour]") {
    Shop shop(begins);
    typed(shop, {{"buy", "Card", "--code", "CARD", "--sheet", "297mm x 420mm", "--paid", "1.00"},
                 {"buy", "Slip", "--code", "SLIP", "--sheet", "5cm x 5cm", "--paid", "1.00"},
                 {"buy", "Drawing paper", "--code", "PAGES", "--sheet", "297mm x 420mm", "--pack",
                  "50", "--paid", "6.00"},
                 {"buy", "Thread", "--code", "THREAD", "--reel", "50m", "--paid", "4.80"}});
    const std::string file = (shop.folder() / "leaf.toml").string();
    const Words begun = {"design", "new",    "pamphlet", "--code", "leaf",     "--name",
                         "Leaf",   "--file", file,       "--use",  "card=CARD"};
    const std::string told = shop.refused(1, begun);
    // The slip is too small for the pages, and said to be nowhere.
    CHECK_THAT(told, Contains("pages: one journal needs 6 x 210 mm x 148 mm") && Contains("thread")
                         && !Contains("SLIP") && Contains("--use pages=CARD --use thread=THREAD"));
    CHECK_FALSE(std::filesystem::exists(file));
    CHECK_THAT(shop.refused(3, {"design", "new", "pamphlet", "--code", "leaf", "--name", "Leaf",
                                "--file", file, "--use", "card=CARDS"}),
               Contains("CARDS") && Contains("CARD"));
    Words all = begun;
    for (const char* word : {"--use", "pages=PAGES", "--use", "thread=THREAD"})
        all.emplace_back(word);
    CHECK_THAT(shop.done(all), Contains("is in the shop") && Contains("barrow cost leaf"));
    CHECK(std::filesystem::exists(file));
    CHECK(shop.json("cost leaf --make 1")["design"] == "leaf");
}

TEST_CASE("a base is as wide as block and wire need, and says why", "[first-hour]") {
    Shop shop(begins);
    typed(shop, {{"buy", "Wire", "--code", "WIR", "--strip", "23", "--pitch", "2:1", "--diameter",
                  "1 1/4in", "--paid", "9.60"},
                 {"buy", "Board", "--code", "BRD", "--sheet", "1m x 1m", "--caliper", "0.4mm",
                  "--paid", "2.00"},
                 {"buy", "Paper", "--code", "PAP", "--sheet", "1m x 1m", "--paid", "2.00"},
                 {"buy", "Envelope", "--code", "ENV", "--size", "9cm x 16.5cm", "--caliper",
                  "0.12mm", "--paid", "2.00"},
                 {"buy", "Ribbon", "--code", "RIB", "--reel", "5m", "--paid", "2.00"},
                 {"buy", "Glue", "--code", "GLU", "--bottle", "1l", "--paid", "2.00"}});
    // 1 1/4 in are 31.75 mm, and 2 mm of room 33.75 mm: 34 mm.
    CHECK_THAT(shop.done({"design",
                          "new",
                          "wire",
                          "--code",
                          "w",
                          "--name",
                          "W",
                          "--file",
                          (shop.folder() / "w.toml").string(),
                          "--set",
                          "base=2cm",
                          "--use",
                          "board=BRD",
                          "--use",
                          "outside=PAP",
                          "--use",
                          "inside=PAP",
                          "--use",
                          "envelope=ENV",
                          "--use",
                          "wire=WIR",
                          "--use",
                          "ribbon=RIB",
                          "--use",
                          "paste=GLU"}),
               Contains("base 34 mm = max(base, base_for_block) = max(20 mm, 34 mm)"));
}
