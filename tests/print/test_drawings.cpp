#include "print/markup.hpp"
#include "print/stall.hpp"

#include "print/golden.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <charconv>
#include <map>

using namespace barrow::test;
using nlohmann::json;

namespace {

double number(const Tag& tag, const std::string& name) {
    const std::string& written = tag.with.at(name);
    double value = 0;
    std::from_chars(written.data(), written.data() + written.size(), value);
    return value;
}

bool inside(const Tag& rect, const Tag& frame) {
    const double slack = 0.15; // coordinates are written to a tenth
    return number(rect, "x") >= number(frame, "x") - slack
           && number(rect, "y") >= number(frame, "y") - slack
           && number(rect, "x") + number(rect, "width")
                  <= number(frame, "x") + number(frame, "width") + slack
           && number(rect, "y") + number(rect, "height")
                  <= number(frame, "y") + number(frame, "height") + slack;
}

std::size_t count(const std::vector<Tag>& tags, const std::string& name) {
    return static_cast<std::size_t>(
        std::count_if(tags.begin(), tags.end(), [&](const Tag& tag) { return tag.name == name; }));
}

const std::string job = R"({
  "goal": "least_cost", "kerf": 0,
  "stock": [{"id": "A & B <new>", "width": 300, "height": 200, "cost": 1, "count": null,
             "margin": {"left": 0, "right": 0, "top": 0, "bottom": 10}}],
  "pieces": [{"id": "tag \"one\"", "width": 100, "height": 95, "count": 6, "turn": "none"}]})";

} // namespace

TEST_CASE("a drawing is well-formed, to scale and shows each piece and each cut",
          "[drawings][svg]") {
    Shop shop;
    const auto file = shop.folder() / "job.json";
    write_bytes(file, job);
    const auto folder = shop.folder() / "drawings";
    const auto document =
        json::parse(shop.done({"--json", "layout", file.string(), "--svg", folder.string()}));
    REQUIRE(document.at("plans").size() == 1);
    const json& plan = document.at("plans").at(0);
    REQUIRE(plan.at("pieces").size() == 6);
    std::vector<std::filesystem::path> files(std::filesystem::directory_iterator(folder), {});
    REQUIRE(files.size() == 1);
    const std::string text = bytes_of(files[0]);
    const auto tags = tags_of(text);
    CHECK(tags.at(0).name == "svg");
    CHECK(tags.at(0).with.at("xmlns") == "http://www.w3.org/2000/svg");
    // The sheet is the first rectangle outside the pattern of waste; all others lie inside it.
    std::vector<Tag> rects;
    for (const Tag& tag : tags)
        if (tag.name == "rect" && tag.with.count("x") != 0) rects.push_back(tag);
    REQUIRE(rects.size() == 1 + 1 + 6); // sheet, margin, pieces
    const double scale = number(rects[0], "width") / 300;
    CHECK(number(rects[0], "height") / 200 == Approx(scale).epsilon(0.01));
    for (const Tag& rect : rects) CHECK(inside(rect, rects[0]));
    for (std::size_t i = 2; i < rects.size(); ++i) {
        CHECK(number(rects[i], "width") == Approx(100 * scale).margin(0.15));
        CHECK(number(rects[i], "height") == Approx(95 * scale).margin(0.15));
    }
    CHECK(count(tags, "circle") == plan.at("cuts").size());
    CHECK_THAT(text, Catch::Contains("A &amp; B &lt;new&gt;") && Catch::Contains("tag &quot;one"));
}

TEST_CASE("the drawings of a plan are one for each sheet that is cut differently",
          "[drawings][svg]") {
    Shop shop(stall_options());
    keep_stall(shop);
    const auto folder = shop.folder() / "drawings";
    shop.done({"plan", "sail", "--make", "5", "--svg", folder.string()});
    long drawn = 0;
    for (const auto& file : std::filesystem::directory_iterator(folder)) {
        INFO(file.path());
        ++drawn;
        const std::string text = bytes_of(file.path());
        CHECK(tags_of(text).at(0).name == "svg");
        CHECK(text.find("nan") == std::string::npos);
    }
    long plans = 0;
    const auto cost = shop.json("cost sail --make 5");
    for (const auto& material : cost.at("plan").at("materials"))
        plans += static_cast<long>(material.at("plans").size());
    CHECK(drawn == plans);
    // The same plan gives the same bytes.
    const std::string once = bytes_of(folder / "MOSS-1.svg");
    shop.done({"plan", "sail", "--make", "5", "--svg", folder.string()});
    CHECK(bytes_of(folder / "MOSS-1.svg") == once);
    matches_golden("MOSS-1.svg", once);
}

TEST_CASE("what is cut from the box besides has drawings of its own", "[drawings][svg]") {
    Shop shop(stall_options());
    keep_stall(shop);
    shop.done("make sail --make 2");
    keep_fillers(shop);
    const auto folder = shop.folder() / "drawings";
    shop.done({"plan", "letter", "--make", "9", "--fillers-from-box", "--svg", folder.string()});
    std::map<std::string, long> plans;
    bool box = false;
    const auto cost = shop.json("cost letter --make 9 --fillers-from-box");
    for (const auto& material : cost.at("plan").at("materials")) {
        box = box || (material.at("from_box") && material.at("material") == "MOSS");
        plans[material.at("material")] += static_cast<long>(material.at("plans").size());
    }
    CHECK(box);
    REQUIRE(plans.at("MOSS") > 1);
    long all = 0;
    for (const auto& [code, number] : plans) all += number;
    std::vector<std::filesystem::path> files(std::filesystem::directory_iterator(folder), {});
    CHECK(static_cast<long>(files.size()) == all);
    const std::string last = std::to_string(plans.at("MOSS"));
    const std::string text = bytes_of(folder / ("MOSS-" + last + ".svg"));
    CHECK_THAT(text, Catch::Contains("MOSS Moss and fern: " + last + " of " + last)
                         && Catch::Contains("bookmark"));
}
