#include "costing/stock.hpp"

#include <catch2/catch.hpp>

#include <map>
#include <random>
#include <set>

using namespace barrow;
using namespace barrow::costing;
using namespace barrow::test;

namespace {

ShelfOffcut box_offcut(std::int64_t id, std::int64_t width, std::int64_t height, std::int64_t pence,
                       std::int64_t age = 0) {
    return {id,
            "K" + std::to_string(id),
            {Length::mm(width).units(), Length::mm(height).units()},
            Money::of_minor(pence),
            age,
            0};
}

design::WorkedPart filler(const std::string& material, std::int64_t width, std::int64_t height,
                          std::int64_t pence, std::int64_t number = 1) {
    auto made = piece("tag", material, Length::mm(width), Length::mm(height), number);
    made.worth = base::Rational::of(pence, 100);
    return made;
}

CutOptions from_box() {
    CutOptions options = quick();
    options.fillers_from_box = true;
    return options;
}

/// A journal that takes nothing but its fillers.
Run only(std::vector<design::WorkedPart> fillers, std::int64_t journals = 1) {
    Run run = run_of({}, journals);
    run.design.fillers = std::move(fillers);
    return run;
}

std::vector<std::int64_t> offcuts_of(const Estimate& made) {
    std::vector<std::int64_t> ids;
    for (const CutPlan& plan : made.cuts)
        for (const SheetUse& sheet : plan.sheets)
            if (plan.from_box) ids.push_back(sheet.source.id);
    return ids;
}

} // namespace

TEST_CASE("fillers come from the box when that is asked for, the small and old offcuts first",
          "[fillers]") {
    std::vector<ShelfMaterial> shelf = {sheets("P", Length::mm(200), Length::mm(200), {{5, 500}}),
                                        sheets("Q", Length::mm(200), Length::mm(200), {})};
    shelf[0].offcuts = {box_offcut(1, 120, 120, 10, 90), box_offcut(2, 40, 30, 1, 3),
                        box_offcut(3, 30, 40, 1, 50), box_offcut(4, 20, 60, 1, 99)};
    shelf[1].offcuts = {box_offcut(5, 40, 30, 0, 300)}; // of another paper
    const auto run = [](std::int64_t number) { return only({filler("P", 40, 30, 20, number)}); };
    CHECK(offcuts_of(estimated({run(1)}, shelf, from_box())) == std::vector<std::int64_t>{3});
    CHECK(offcuts_of(estimated({run(2)}, shelf, from_box())) == std::vector<std::int64_t>{3, 2});
    // By hand: 40 x 30 goes twelve times into 120 x 120, three of which are still wanted.
    const Estimate made = estimated({run(5)}, shelf, from_box());
    CHECK(offcuts_of(made) == std::vector<std::int64_t>{3, 2, 1});
    REQUIRE(made.lines.size() == 1);
    CHECK(made.lines[0].quantity == 5);
    CHECK(made.lines[0].from_box == 5);
    CHECK(made.fillers_missing.empty());
    CHECK(sum_of_lines(made) == taken_in_all(made));
    // What is not asked for is not done.
    const Estimate plain = estimated({run(5)}, shelf);
    CHECK(plain.cuts.empty());
    CHECK(plain.lines.empty());
    CHECK(plain.fillers_missing.empty());
}

TEST_CASE("what the plan leaves over goes before the box, and no more is cut than is wanted",
          "[fillers]") {
    // By hand: a sheet of 100 x 100 gives a leaf of 60 x 100 and leaves room for three fillers of
    // 40 x 30.
    std::vector<ShelfMaterial> shelf = {sheets("P", Length::mm(100), Length::mm(100), {{5, 500}})};
    shelf[0].offcuts = {box_offcut(1, 45, 30, 5), box_offcut(2, 45, 30, 5),
                        box_offcut(3, 45, 30, 5)};
    Run run = run_of({piece("leaf", "P", Length::mm(60), Length::mm(100))}, 1);
    for (const auto& [wanted, cut, boxed] :
         std::vector<std::array<std::int64_t, 3>>{{3, 3, 0}, {5, 5, 2}, {6, 6, 3}, {9, 6, 3}}) {
        run.design.fillers = {filler("P", 40, 30, 50, wanted)};
        const Estimate made = estimated({run}, shelf, from_box());
        INFO(wanted);
        REQUIRE(made.lines.size() == 2);
        CHECK(made.lines[1].quantity == cut);
        CHECK(made.lines[1].from_box == boxed);
        CHECK(static_cast<std::int64_t>(offcuts_of(made).size()) == boxed);
        CHECK(sum_of_lines(made) == taken_in_all(made));
        REQUIRE(made.fillers_missing.size() == (cut < wanted ? 1U : 0U));
        if (cut < wanted)
            CHECK_THAT(made.fillers_missing[0],
                       Catch::Contains("tag of test: 6 of 9 wanted are cut"));
    }
}

TEST_CASE("an offcut is cut for fillers only when they are worth more than it costs", "[fillers]") {
    std::vector<ShelfMaterial> shelf = {sheets("P", Length::mm(200), Length::mm(200), {})};
    shelf[0].offcuts = {box_offcut(1, 100, 100, 100)};
    const auto pays = [&](std::int64_t pence, const CutOptions& options) -> std::int64_t {
        const Estimate made = estimated({only({filler("P", 50, 100, pence)})}, shelf, options);
        CHECK(sum_of_lines(made) == taken_in_all(made));
        return made.lines.empty() ? -1 : made.lines[0].cost_offcuts.minor();
    };
    // Half of it goes back with half its value; the filler bears its own half.
    CHECK(pays(51, from_box()) == 50);
    CHECK(pays(50, from_box()) == -1);
    // The shop lets offcuts carry half their share: the filler bears three quarters.
    CutOptions half = from_box();
    half.offcut_share = base::Rational::of(1, 2);
    CHECK(pays(76, half) == 75);
    CHECK(pays(75, half) == -1);
    // What is too small to keep is waste, and the filler bears it.
    shelf[0].least_useful = {Length::mm(60).units(), Length::mm(60).units()};
    CHECK(pays(101, from_box()) == 100);
    CHECK(pays(100, from_box()) == -1);
    const Estimate made = estimated({only({filler("P", 50, 100, 101)})}, shelf, from_box());
    CHECK(made.lines[0].waste_cost == Money::of_minor(50));
}

TEST_CASE("what an offcut gives besides its fillers is kept in one piece", "[fillers]") {
    // By hand: two labels of 50 x 90 side by side leave 110 x 97, which can be kept; lying one over
    // or behind the other as 90 x 50 they leave strips of 47 and of 30, which cannot.
    std::vector<ShelfMaterial> shelf = {sheets("P", Length::mm(210), Length::mm(297), {})};
    shelf[0].least_useful = {Length::mm(60).units(), Length::mm(100).units()};
    shelf[0].offcuts = {box_offcut(1, 210, 97, 700)};
    for (const std::int64_t kerf : {0, 1}) {
        shelf[0].kerf = Length::mm(kerf);
        const Estimate made = estimated({only({filler("P", 50, 90, 500, 2)})}, shelf, from_box());
        REQUIRE(made.cuts.size() == 1);
        REQUIRE(made.cuts[0].sheets[0].kept.size() == 1);
        const layout::Rectangle& kept = made.cuts[0].sheets[0].kept[0].place;
        CHECK(kept.width == Length::mm(110 - 2 * kerf).units());
        CHECK(kept.height == Length::mm(97).units());
        CHECK(sum_of_lines(made) == taken_in_all(made));
    }
}

TEST_CASE("what is worth less than it carries is cut only from what would be waste", "[fillers]") {
    std::vector<ShelfMaterial> shelf = {sheets("P", Length::mm(200), Length::mm(200), {})};
    shelf[0].offcuts = {box_offcut(1, 100, 100, 100)};
    auto small = filler("P", 40, 40, 10, 5); // carries 16
    small.name = "corner";
    const Run run = only({filler("P", 100, 60, 100), small}); // carries 60
    // The strip of 100 x 40 beside the large one can be kept: it goes back with 40.
    shelf[0].least_useful = {Length::mm(40).units(), Length::mm(40).units()};
    const Estimate kept = estimated({run}, shelf, from_box());
    REQUIRE(kept.lines.size() == 1);
    CHECK(kept.lines[0].cost == Money::of_minor(60));
    // It cannot: two corners come of it, and only with them is the offcut worth cutting.
    shelf[0].least_useful = {Length::mm(60).units(), Length::mm(60).units()};
    const Estimate waste = estimated({run}, shelf, from_box());
    REQUIRE(waste.lines.size() == 2);
    CHECK(waste.lines[1].quantity == 2);
    CHECK(sum_of_lines(waste) == Money::of_minor(100));
}

TEST_CASE("an offcut that a part takes is not cut for fillers", "[fillers]") {
    std::vector<ShelfMaterial> shelf = {sheets("P", Length::mm(200), Length::mm(200), {{1, 400}})};
    shelf[0].offcuts = {box_offcut(1, 60, 100, 10)};
    Run run = run_of({piece("leaf", "P", Length::mm(60), Length::mm(100))}, 1);
    run.design.fillers = {filler("P", 60, 50, 90)};
    const Estimate made = estimated({run}, shelf, from_box());
    REQUIRE(made.cuts.size() == 1);
    CHECK(made.cuts[0].sheets[0].source.id == 1);
    CHECK_FALSE(made.cuts[0].from_box);
    CHECK(made.lines.size() == 1);
}

TEST_CASE("of papers that go together, the smallest offcut is taken whichever it is of",
          "[fillers]") {
    std::vector<ShelfMaterial> shelf = {sheets("P", Length::mm(200), Length::mm(200), {}),
                                        sheets("Q", Length::mm(200), Length::mm(200), {})};
    for (ShelfMaterial& each : shelf) each.collection = "Marsh";
    shelf[0].offcuts = {box_offcut(1, 100, 100, 1), box_offcut(2, 50, 30, 1)};
    shelf[1].offcuts = {box_offcut(3, 60, 30, 1)};
    Run run = only({filler("", 40, 30, 50, 3)});
    design::WorkedSlot any;
    any.name = "tag";
    any.collection = "Marsh";
    run.design.slots = {any};
    const Estimate made = estimated({run}, shelf, from_box());
    REQUIRE(made.cuts.size() == 2);
    CHECK(made.lines.size() == 2);
    CHECK(offcuts_of(made) == std::vector<std::int64_t>{2, 1, 3});
    CHECK(made.lines[0].quantity + made.lines[1].quantity == 3);
    CHECK(sum_of_lines(made) == taken_in_all(made));
}

TEST_CASE("lengths and loops for fillers come from the box too, and what is left keeps its label",
          "[fillers]") {
    std::vector<ShelfMaterial> shelf = {rolls("R", Length::mm(2'000), {}), strips("W", 30, {})};
    shelf[0].offcuts = {{1, "K1", {Length::mm(700).units(), 1}, Money::of_minor(70), 0, 0}};
    shelf[1].offcuts = {{2, "K2", {12, 1}, Money::of_minor(24), 0, 0}};
    auto mark = part("mark", "R", design::Take::length, 2);
    mark.length = Length::mm(200);
    mark.worth = base::Rational::of(1, 2);
    auto ring = part("ring", "W", design::Take::loops, 1);
    ring.loops = 5;
    ring.worth = base::Rational::of(1, 2);
    const Estimate made = estimated({only({mark, ring})}, shelf, from_box());
    REQUIRE(made.cuts.size() == 2);
    REQUIRE(made.cuts[0].sheets.size() == 1);
    REQUIRE(made.cuts[0].sheets[0].kept.size() == 1);
    CHECK(made.cuts[0].sheets[0].kept[0].keeps_code);
    CHECK(made.cuts[0].sheets[0].kept[0].value == Money::of_minor(30));
    CHECK(made.lines[0].quantity == Length::mm(400).units());
    CHECK(made.lines[0].from_box == Length::mm(400).units());
    CHECK(made.lines[0].cost == Money::of_minor(40));
    CHECK(made.lines[1].cost == Money::of_minor(10));
}

TEST_CASE("over random boxes no penny is lost, and the parts are cut as without the box",
          "[fillers][random]") {
    std::mt19937 dice(20270306);
    const auto any = [&](std::int64_t low, std::int64_t high) {
        return low + static_cast<std::int64_t>(dice() % static_cast<std::uint64_t>(high - low + 1));
    };
    int boxed = 0;
    for (int round = 0; round < 150; ++round) {
        INFO("round " << round);
        std::vector<ShelfMaterial> shelf = {
            sheets("P", Length::mm(300), Length::mm(200), {{any(0, 2), 200}, {3, 333}}),
            sheets("Q", Length::mm(210), Length::mm(297), {{4, 401}})};
        std::int64_t id = 0;
        std::map<std::int64_t, const ShelfMaterial*> of;
        for (ShelfMaterial& each : shelf) {
            each.least_useful = {Length::mm(any(0, 60)).units(), Length::mm(60).units()};
            each.kerf = Length::mm(any(0, 2));
            each.turn = any(0, 1) == 0 ? design::Turn::none : design::Turn::quarter;
            for (std::int64_t n = any(0, 6); n > 0; --n) {
                each.offcuts.push_back(
                    box_offcut(++id, any(20, 200), any(20, 200), any(0, 40), any(0, 300)));
                of[id] = &each;
            }
        }
        std::vector<Run> runs;
        for (std::int64_t n = any(1, 2); n > 0; --n) {
            Run run = run_of(
                {piece("leaf", "P", Length::mm(any(50, 180)), Length::mm(any(50, 180)), any(1, 2))},
                any(1, 3));
            run.design.fillers = {filler("P", any(20, 70), any(20, 70), any(1, 30), any(1, 4)),
                                  filler(any(0, 1) == 0 ? "P" : "Q", any(20, 90), any(20, 40),
                                         any(1, 30), any(1, 4))};
            runs.push_back(std::move(run));
        }
        CutOptions options = quick();
        options.offcut_share = base::Rational::of(any(0, 4), 4);
        const Estimate plain = estimated(runs, shelf, options);
        options.fillers_from_box = true;
        const Estimate made = estimated(runs, shelf, options);
        CHECK(sum_of_lines(made) == taken_in_all(made));
        // The plans for the parts, and what they leave over, are the same.
        REQUIRE(made.cuts.size() >= plain.cuts.size());
        for (std::size_t i = 0; i < plain.cuts.size(); ++i) {
            CHECK_FALSE(made.cuts[i].from_box);
            CHECK(made.cuts[i].outcome.cost == plain.cuts[i].outcome.cost);
            CHECK(made.cuts[i].outcome.plans.size() == plain.cuts[i].outcome.plans.size());
        }
        std::map<Origin, std::int64_t> cut;
        std::set<std::int64_t> taken;
        for (const CutPlan& plan : made.cuts) {
            for (const SheetUse& sheet : plan.sheets)
                if (sheet.source.kind == Source::Kind::offcut)
                    CHECK(taken.insert(sheet.source.id).second);
            for (const CutWant& want : plan.wants) cut[want.origin] += want.count;
            if (!plan.from_box) continue;
            for (const SheetUse& sheet : plan.sheets) {
                ++boxed;
                CHECK(of.at(sheet.source.id) == plan.material);
                Money pays = sheet.cost;
                for (const Kept& kept : sheet.kept) pays -= kept.value;
                base::Rational worth;
                for (const layout::Placed& placed : plan.outcome.plans[sheet.plan].pieces) {
                    const Origin& origin = plan.wants[placed.piece].origin;
                    worth = worth + *part_behind(runs[origin.run], origin.part)->worth;
                }
                CHECK(worth * base::Rational(100) > base::Rational(pays.minor()));
            }
        }
        for (const auto& [origin, count] : cut) {
            const Run& run = runs[origin.run];
            const std::int64_t wanted = part_behind(run, origin.part)->number * run.journals;
            CHECK(count <= wanted);
            if (origin.part < run.design.parts.size()) CHECK(count == wanted);
        }
    }
    CHECK(boxed > 100);
}
