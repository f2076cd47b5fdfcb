#include "book/shop.hpp"

#include <catch2/catch.hpp>

#include <map>
#include <random>

using namespace barrow::test;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

/// The example of the interface: a sheet with a border below and an offcut, covers and tags.
const std::string example = R"({
  "goal": "least_cost",
  "kerf": 0,
  "stock":  [ {"id": "new",  "width": 305, "height": 305, "cost": 0.85, "count": null,
               "margin": {"left":0,"right":0,"top":0,"bottom":6}},
              {"id": "K7-2", "width": 120, "height": 305, "cost": 0.20, "count": 1,
               "offcut": true} ],
  "pieces": [ {"id": "cover", "width": 165, "height": 210, "count": 4, "turn": "none"},
              {"id": "tag",   "width": 60,  "height": 110, "count": 20, "turn": "quarter"} ]
})";

Shop::Said lay_out(Shop& shop, const std::string& job, std::vector<std::string> words = {}) {
    words.insert(words.begin(), {"--json", "layout", "-"});
    return shop.run(words, job);
}

bool apart(const json& a, const json& b) {
    const auto n = [](const json& piece, const char* name) { return piece.at(name).get<double>(); };
    return n(a, "x") + n(a, "width") <= n(b, "x") || n(b, "x") + n(b, "width") <= n(a, "x")
           || n(a, "y") + n(a, "height") <= n(b, "y") || n(b, "y") + n(b, "height") <= n(a, "y");
}

} // namespace

TEST_CASE("layout: a cost of many decimal places is printed as it is", "[cli][layout]") {
    Shop shop;
    const auto said = lay_out(shop, R"({
      "stock": [{"id": "s", "width": 203.99375, "height": 203.99375}],
      "pieces": [{"id": "p", "width": 200, "height": 200, "count": 1}]})");
    CHECK_THAT(said.out, Contains("\"cost\": 41613.4500390625,"));
    CHECK_THAT(said.out, Contains("\"bound\": 41613.4500390625,"));
}

TEST_CASE("layout: the example of the interface is laid out as it promises", "[cli][layout]") {
    Shop shop;
    const auto said = lay_out(shop, example);
    CHECK(said.code == 0);
    CHECK(said.err.empty());
    const json document = json::parse(said.out);
    CHECK(document.at("kind") == "layout");
    CHECK(document.at("version") == 1);
    CHECK((document.at("status") == "optimal" || document.at("status") == "feasible"));
    CHECK(document.at("value").is_null());
    CHECK(document.at("bound").get<double>() <= document.at("cost").get<double>());
    CHECK(document.at("effort").at("level") == "normal");
    CHECK(document.at("effort").at("work").is_number_integer());
    CHECK(document.at("effort").at("stopped_early") == false);
    std::map<std::string, long> placed;
    long sheets = 0;
    double cost = 0;
    for (const json& plan : document.at("plans")) {
        const long copies = plan.at("copies").get<long>();
        const bool fresh = plan.at("stock") == "new";
        sheets += copies;
        cost += static_cast<double>(copies) * (fresh ? 0.85 : 0.20);
        for (const json& piece : plan.at("pieces")) {
            placed[piece.at("id")] += copies;
            CHECK(piece.at("x").get<double>() >= 0);
            CHECK(piece.at("y").get<double>() >= (fresh ? 6 : 0));
            CHECK(piece.at("x").get<double>() + piece.at("width").get<double>()
                  <= (fresh ? 305 : 120));
            CHECK(piece.at("y").get<double>() + piece.at("height").get<double>() <= 305);
            if (piece.at("id") == "cover") CHECK(piece.at("turned") == false);
            for (const json& other : plan.at("pieces"))
                CHECK((piece == other || apart(piece, other)));
        }
        long n = 0;
        for (const json& cut : plan.at("cuts")) {
            CHECK(cut.at("n") == ++n);
            CHECK((cut.at("axis") == "x" || cut.at("axis") == "y"));
            CHECK(cut.at("from").get<double>() < cut.at("to").get<double>());
        }
    }
    CHECK(placed == std::map<std::string, long>{{"cover", 4}, {"tag", 20}});
    CHECK(sheets == document.at("sheets").get<long>());
    CHECK(cost == Approx(document.at("cost").get<double>()));
}

TEST_CASE("layout: the same job has the same answer, to the byte", "[cli][layout]") {
    Shop shop;
    const std::string once = lay_out(shop, example).out;
    CHECK(lay_out(shop, example).out == once);
    for (const char* effort : {"quick", "thorough"}) {
        const auto said = lay_out(shop, example, {"--effort", effort});
        CHECK(json::parse(said.out).at("effort").at("level") == effort);
        CHECK(lay_out(shop, example, {"--effort", effort}).out == said.out);
    }
}

TEST_CASE("layout: a job that is searched long has the same answer each time", "[cli][layout]") {
    // Sizes that go into each other nowhere: what decides is the search with its random numbers.
    Shop shop;
    std::mt19937 random(6);
    long work = 0;
    for (int number = 0; number < 6; ++number) {
        json job = {{"goal", "least_cost"}, {"kerf", 0}};
        job["stock"] = {{{"id", "s"}, {"width", 317}, {"height", 211}, {"count", nullptr}}};
        for (int i = 0; i < 40; ++i)
            job["pieces"].push_back({{"id", "p" + std::to_string(i)},
                                     {"width", 23 + random() % 90},
                                     {"height", 23 + random() % 70},
                                     {"count", 1 + random() % 3},
                                     {"turn", i % 2 == 0 ? "none" : "quarter"}});
        const auto once = lay_out(shop, job.dump(), {"--effort", "quick"});
        CHECK(once.code == 0);
        work += json::parse(once.out).at("effort").at("work").get<long>();
        CHECK(lay_out(shop, job.dump(), {"--effort", "quick"}).out == once.out);
    }
    CHECK(work > 1000); // thousands of steps: there was something to search
}

TEST_CASE("layout: what cannot be placed is named, with exit code 1", "[cli][layout]") {
    Shop shop;
    const auto said = lay_out(shop, R"({"goal": "least_cost", "kerf": 0,
        "stock": [{"id": "s", "width": 100, "height": 100, "count": 1}],
        "pieces": [{"id": "large", "width": 101, "height": 10, "count": 1, "turn": "none"},
                   {"id": "half", "width": 100, "height": 50, "count": 3, "turn": "none"}]})");
    CHECK(said.code == 1);
    const json document = json::parse(said.out);
    CHECK(document.at("status") == "infeasible");
    CHECK(document.at("unplaced").size() == 2);
    CHECK_THAT(said.err, Contains("large") && Contains("half"));
}

TEST_CASE("layout: lengths, and the best-valued choice for one sheet", "[cli][layout]") {
    Shop shop;
    // Three of 400 out of rolls of 1000: two rolls, since two go into one.
    const json lengths = json::parse(lay_out(shop, R"({"goal": "least_cost", "kerf": 0,
            "stock": [{"id": "roll", "length": 1000, "cost": 3, "count": null}],
            "pieces": [{"id": "tie", "length": 400, "count": 3}]})")
                                         .out);
    CHECK(lengths.at("status") == "optimal");
    CHECK(lengths.at("cost") == 6);
    // Four squares of 50 fill a sheet of 100 x 100: nothing is worth more.
    const json value = json::parse(lay_out(shop, R"({"goal": "most_value", "kerf": 0,
            "stock": [{"id": "s", "width": 100, "height": 100}],
            "pieces": [{"id": "square", "width": 50, "height": 50, "count": null, "turn": "none"},
                       {"id": "strip", "width": 90, "height": 60, "count": 1, "turn": "none"}]})")
                                       .out);
    CHECK(value.at("value") == 10000);
    CHECK(value.at("bound").get<double>() >= 10000);
}

TEST_CASE("layout: a job that does not fit is told by its place, without a shop", "[cli][layout]") {
    Shop shop;
    std::filesystem::remove(shop.path());
    const auto bad = [&](const std::string& width, const std::string& turn) {
        const auto said = lay_out(shop, R"({"goal": "least_cost", "kerf": 0,
            "stock": [{"id": "s", "width": )"
                                            + width + R"(, "height": 100}],
            "pieces": [{"id": "a", "width": 1, "height": 10, "count": 1, "turn": ")"
                                            + turn + "\"}]}");
        CHECK(said.code == 3);
        CHECK(said.out.empty());
        return said.err;
    };
    CHECK_THAT(bad("-3", "none"), Contains("-:2, stock[0].width") && Contains("positive"));
    CHECK_THAT(bad("\"3\"", "none"), Contains("-:2, stock[0].width") && Contains("number"));
    CHECK_THAT(bad("3", "sideways"), Contains("-:3, pieces[0].turn") && Contains("quarter"));
    CHECK(lay_out(shop, "{").code == 3);
    CHECK(lay_out(shop, example, {"--effort", "heroic"}).code == 2);
    CHECK(shop.run("layout /no/such/job.json").code == 5);
}
