#include "book/shop.hpp"
#include "cli/run.hpp"

#include "store/dump.hpp"

#include <catch2/catch.hpp>

#include <fstream>
#include <sstream>

using namespace barrow::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

struct Ran {
    int code = 0;
    std::string out, err;
};

/// Runs a command with a clock, and perhaps another day in BARROW_TODAY, into `out`.
Ran run_on(const Shop& shop, const std::string& clock, const std::string& line,
           std::ostream* out = nullptr) {
    std::ostringstream text;
    std::ostringstream err;
    std::istringstream in;
    barrow::cli::World world{out != nullptr ? *out : text,
                             err,
                             in,
                             {{"BARROW_SHOP", shop.path().string()}, {"BARROW_TODAY", shop.today}},
                             clock + "T09:30:00Z"};
    Ran said;
    said.code = barrow::cli::run(Shop::words_of(line), world);
    said.out = text.str();
    said.err = err.str();
    return said;
}

std::vector<std::string> names_in(const fs::path& folder) {
    std::vector<std::string> names;
    for (const auto& entry : fs::directory_iterator(folder))
        names.push_back(entry.path().filename().string());
    std::sort(names.begin(), names.end());
    return names;
}

} // namespace

TEST_CASE("what is written on another day than today says so", "[cli][day]") {
    Shop shop;
    stock_up(shop);
    const std::string remark = "The day is taken to be 2027-03-06, not today";
    for (const char* line : {"receive ENV --units 1 --cost 0.10", "make leaflet --make 1",
                             "supplier change HOB --note shut", "settings margin 55%"}) {
        INFO(line);
        CHECK_THAT(run_on(shop, "2027-03-09", line).err, Contains(remark));
        CHECK_THAT(run_on(shop, "2027-03-06", line).err, !Contains("not today"));
    }
    for (const char* line : {"stock", "settings", "log"})
        CHECK(run_on(shop, "2027-03-09", line).err.empty());
}

TEST_CASE("a result that cannot be shown is said to be booked all the same", "[cli][output]") {
    Shop shop;
    stock_up(shop);
    const std::int64_t before = shop.entry();
    std::ofstream full("/dev/full");
    REQUIRE(full.is_open());
    const Ran said = run_on(shop, shop.today, "receive ENV --units 1 --cost 0.10", &full);
    CHECK(said.code == 5);
    CHECK_THAT(said.err, Contains("is kept") && Contains("barrow log"));
    CHECK(shop.entry() == before + 1);
    for (const char* line : {"stock", "receive ENV --units 1 --cost 0.10 --dry-run"}) {
        std::ofstream again("/dev/full");
        const Ran read = run_on(shop, shop.today, line, &again);
        CHECK(read.code == 5);
        CHECK_THAT(read.err, Contains("cannot be written") && !Contains("is kept"));
    }
    CHECK(shop.entry() == before + 1);
}

TEST_CASE("reorder --place names what nobody is known to sell", "[cli][reorder]") {
    Shop shop;
    shop.import("supplier import", "code,name\nPELL,Pellwether\n");
    shop.import("material import", "code,name,form,supplier,pack,pack_price\n"
                                   "TAG,Tag,count,,10,2.00\nPIN,Pin,count,PELL,10,1.00\n");
    shop.design("[design]\ncode = \"charm\"\nname = \"Charm\"\n[materials]\ntag = \"TAG\"\n"
                "[[part]]\nname = \"tags\"\nmaterial = \"tag\"\nnumber = \"2\"\n");
    const std::string before = dump(shop.path());
    const auto nothing = shop.run("reorder charm=4 --place");
    CHECK(nothing.code == 1);
    CHECK_THAT(nothing.err, Contains("TAG") && Contains("barrow material change TAG --supplier"));
    CHECK(dump(shop.path()) == before);
    // What has a supplier is ordered, and the rest is named.
    shop.done("material change PIN --reorder-at 5");
    const auto some = shop.run("reorder charm=4 --place");
    CHECK(some.code == 0);
    CHECK_THAT(some.out, Contains("is placed with Pellwether"));
    CHECK_THAT(some.err, Contains("TAG"));
    shop.done("material change TAG --supplier PELL");
    CHECK(shop.run("reorder charm=4 --place").err.empty());
}

TEST_CASE("minutes may be given as they are shown", "[cli][batch]") {
    const auto shown = [](const std::string& minutes) {
        Shop shop({"--hourly-rate", "12"});
        stock_up(shop);
        shop.done("batch plan leaflet --make 1");
        shop.done("batch cut 1");
        const auto said = shop.run({"batch", "finish", "1", "--minutes", minutes});
        INFO(said.err);
        return said.code == 0 ? shop.done("batch show 1") : "exit " + std::to_string(said.code);
    };
    const std::string plain = shown("220");
    CHECK_THAT(plain, Contains("3 h 40 min"));
    for (const char* same : {"3 h 40 min", "3h 40m", "3h40m", "3h 40", "220 min"}) {
        INFO(same);
        CHECK(shown(same) == plain);
    }
    for (const char* wrong : {"soon", "3 days", "-5", "3 40", "h"}) {
        INFO(wrong);
        CHECK(shown(wrong) == "exit 2");
    }
}

TEST_CASE("what has no cover to draw is shown all the same", "[cli][design]") {
    Shop shop;
    stock_up(shop);
    const auto file = (shop.folder() / "cover.svg").string();
    for (const std::string line : {"calculate paper", "design show leaflet"}) {
        const auto said = shop.run(line + " --svg " + file);
        CHECK(said.code == 1);
        CHECK(said.out == shop.done(line));
        CHECK_THAT(said.err, Contains("cover"));
        CHECK_FALSE(fs::exists(file));
    }
}

TEST_CASE("new drawings replace old ones of ours, and nothing else", "[cli][drawings]") {
    Shop shop;
    stock_up(shop);
    const fs::path folder = shop.folder() / "drawings";
    const std::string to = " --svg " + folder.string();
    shop.done("plan leaflet --make 8" + to);
    const auto first = names_in(folder);
    REQUIRE(first.size() > 1);
    // Other people's: a photograph, a drawing made by hand, one of ours changed by hand, a link.
    write_bytes(folder / "photo.jpg", "light");
    write_bytes(folder / "mine.svg", "<svg/>");
    const std::string ours = bytes_of(folder / first.back());
    write_bytes(folder / "changed.svg", "<!-- " + ours);
    const fs::path outside = shop.folder() / "outside.svg";
    write_bytes(outside, ours);
    fs::create_symlink(outside, folder / "linked.svg");
    write_bytes(folder / "stale.svg", ours);
    shop.done("plan leaflet --make 1" + to);
    CHECK(names_in(folder)
          == std::vector<std::string>{"MOSS-1.svg", "RIB-1.svg", "changed.svg", "linked.svg",
                                      "mine.svg", "photo.jpg"});
    CHECK(bytes_of(outside) == ours);
    CHECK(fs::is_symlink(folder / "linked.svg"));

    // A name that somebody else has is not taken, and then nothing is written.
    fs::remove(folder / "MOSS-1.svg");
    fs::create_symlink(outside, folder / "MOSS-1.svg");
    CHECK(shop.run("plan leaflet --make 1" + to).code == 1);
    CHECK(bytes_of(outside) == ours);
    fs::remove(folder / "MOSS-1.svg");
    write_bytes(folder / "MOSS-1.svg", "<svg/>");
    CHECK_THAT(shop.run("plan leaflet --make 1" + to).err, Contains("not drawn by barrow"));
    CHECK(bytes_of(folder / "MOSS-1.svg") == "<svg/>");
}

TEST_CASE("an export that fails leaves what was there, and no half file", "[cli][exports]") {
    Shop shop;
    stock_up(shop);
    const fs::path file = shop.folder() / "stock.csv";
    shop.done("export stock " + file.string());
    const std::string text = bytes_of(file);
    CHECK(text.rfind("code,", 0) == 0);
    // Replaced as a whole: whoever has the old file open still reads all of it.
    std::ifstream reader(file, std::ios::binary);
    shop.done("receive ENV --units 1 --cost 0.10");
    shop.done("export stock " + file.string() + " --replace");
    std::ostringstream still;
    still << reader.rdbuf();
    CHECK(still.str() == text);
    CHECK(bytes_of(file) != text);
    // A folder in which nothing can be written.
    const auto before = names_in(shop.folder());
    CHECK(shop.run("export stock /proc/none/stock.csv").code == 5);
    CHECK(shop.run("export stock /dev/full").code == 1); // it is there already
    CHECK(shop.run("export stock /dev/full --replace").code == 5);
    CHECK(names_in(shop.folder()) == before);
    // A link stays a link, and what it leads to is replaced.
    const fs::path link = shop.folder() / "link.csv";
    fs::create_symlink(file, link);
    write_bytes(file, "old");
    shop.done("export stock " + link.string() + " --replace");
    CHECK(fs::is_symlink(link));
    CHECK(bytes_of(file) != "old");
}
