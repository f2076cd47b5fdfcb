#include "base/error.hpp"
#include "costing/cutting/cutting.hpp"
#include "layout/checker.hpp"

#include "costing/stock.hpp"

#include <catch2/catch.hpp>

#include <map>

using namespace barrow::costing;
using namespace barrow::test;
using barrow::base::Error;
using barrow::base::Kind;
using barrow::design::Turn;
namespace layout = barrow::layout;

namespace {

CutWant want(std::int64_t width, std::int64_t height, std::int64_t count, Turn turn = Turn::none) {
    CutWant wanted;
    wanted.size = {Length::mm(width).units(), Length::mm(height).units()};
    wanted.count = count;
    wanted.turn = turn;
    return wanted;
}

CutPlan cut(const ShelfMaterial& material, std::vector<CutWant> wants,
            const CutOptions& options = quick()) {
    Demand demand;
    demand.material = &material;
    demand.cuts = std::move(wants);
    return plan_cuts(demand, options);
}

std::map<Source::Kind, int> sources(const CutPlan& plan) {
    std::map<Source::Kind, int> counts;
    for (const SheetUse& sheet : plan.sheets) ++counts[sheet.source.kind];
    return counts;
}

ShelfOffcut offcut(std::int64_t id, std::int64_t width, std::int64_t height, std::int64_t minor) {
    return {id,
            "X" + std::to_string(id),
            {Length::mm(width).units(), Length::mm(height).units()},
            pence(minor),
            10,
            1};
}

/// What must hold for every plan: it is proven, areas add up, every unit has its source.
void require_sound(const CutPlan& plan) {
    CHECK(layout::check(plan.job, plan.outcome).empty());
    std::map<std::int64_t, std::int64_t> from_lots;
    std::map<std::int64_t, int> from_offcuts;
    std::int64_t to_buy = 0;
    for (const SheetUse& sheet : plan.sheets) {
        CHECK(sheet.pieces_measure + sheet.kept_measure + sheet.waste_measure
              == static_cast<std::int64_t>(sheet.size.measure()));
        CHECK(sheet.waste_measure >= 0);
        Money kept;
        for (const Kept& remnant : sheet.kept) kept += remnant.value;
        CHECK(kept <= sheet.cost);
        if (sheet.source.kind == Source::Kind::lot)
            from_lots[sheet.source.id] += static_cast<std::int64_t>(sheet.size.measure());
        if (sheet.source.kind == Source::Kind::offcut) ++from_offcuts[sheet.source.id];
        if (sheet.source.kind == Source::Kind::to_buy) ++to_buy;
    }
    CHECK(to_buy == plan.to_buy);
    for (const auto& [id, times] : from_offcuts) CHECK(times == 1);
    Money lots_gave;
    for (const LotTake& take : plan.takes) {
        CHECK(from_lots[take.lot] == take.quantity);
        lots_gave += take.value;
    }
    Money sheets_cost;
    for (const SheetUse& sheet : plan.sheets)
        if (sheet.source.kind == Source::Kind::lot) sheets_cost += sheet.cost;
    CHECK(sheets_cost == lots_gave);
}

} // namespace

TEST_CASE("sheets come from the oldest lot first and cost what their lot did", "[cutting]") {
    const ShelfMaterial paper = sheets("P", Length::mm(300), Length::mm(300), {{2, 100}, {3, 240}});
    const CutPlan plan = cut(paper, {want(300, 200, 4)});
    require_sound(plan);
    REQUIRE(plan.takes.size() == 2);
    CHECK(plan.takes[0].value == pence(100)); // both of the first lot
    CHECK(plan.takes[1].value == pence(160)); // two of three at 0.80
    CHECK(plan.to_buy == 0);
}

TEST_CASE("under the moving average every sheet costs the same", "[cutting]") {
    const ShelfMaterial paper = sheets("P", Length::mm(300), Length::mm(300), {{2, 100}, {3, 240}});
    CutOptions options = quick();
    options.order = CostOrder::moving_average;
    const CutPlan plan = cut(paper, {want(300, 200, 4)}, options);
    require_sound(plan);
    for (const SheetUse& sheet : plan.sheets) CHECK(sheet.cost == pence(68)); // 3.40 over five
    CHECK(value_of(plan.takes) == pence(272));
}

TEST_CASE("an offcut that does goes before a fresh sheet", "[cutting]") {
    ShelfMaterial paper = sheets("P", Length::mm(300), Length::mm(300), {{5, 500}});
    paper.offcuts = {offcut(7, 300, 110, 37)};
    const CutPlan plan = cut(paper, {want(280, 100, 1)});
    require_sound(plan);
    REQUIRE(plan.sheets.size() == 1);
    CHECK(plan.sheets[0].source == Source{Source::Kind::offcut, 7});
    CHECK(plan.sheets[0].cost == pence(37));
    CHECK(plan.takes.empty());
}

TEST_CASE("a large offcut is left alone where a small one will do", "[cutting]") {
    ShelfMaterial paper = sheets("P", Length::mm(300), Length::mm(300), {{5, 500}});
    paper.offcuts = {offcut(7, 300, 250, 80), offcut(8, 120, 110, 12)};
    const CutPlan plan = cut(paper, {want(100, 100, 1)});
    REQUIRE(plan.sheets.size() == 1);
    CHECK(plan.sheets[0].source.id == 8);
}

TEST_CASE("offcuts too small for anything are left in the box", "[cutting]") {
    ShelfMaterial paper = sheets("P", Length::mm(300), Length::mm(300), {{5, 500}});
    paper.offcuts = {offcut(7, 90, 90, 5), offcut(8, 300, 99, 5)};
    const CutPlan plan = cut(paper, {want(100, 100, 1)});
    require_sound(plan);
    CHECK(sources(plan)[Source::Kind::offcut] == 0);
    CHECK(sources(plan)[Source::Kind::lot] == 1);
}

TEST_CASE("the shelf is used up before anything is bought, even where buying is cheaper",
          "[cutting]") {
    ShelfMaterial paper = sheets("P", Length::mm(300), Length::mm(300), {{2, 900}});
    paper.unit_price = barrow::base::Rational(10); // a tenth of what the shelf cost
    const CutPlan plan = cut(paper, {want(300, 300, 2)});
    CHECK(plan.to_buy == 0);
    const CutPlan more = cut(paper, {want(300, 300, 5)});
    require_sound(more);
    CHECK(more.to_buy == 3);
    CHECK(more.to_buy_cost == pence(30));
    CHECK(sources(more)[Source::Kind::lot] == 2);
}

TEST_CASE("dearer sheets of another size on the shelf go before one to buy", "[cutting]") {
    // One of the usual size is there, and two larger ones of nine times the cost: three pieces, one
    // to a sheet, take all three and nothing is bought.
    ShelfMaterial material = sheets("P", Length::mm(100), Length::mm(100), {{1, 100}});
    const barrow::base::StockSize large = {Length::mm(150).units(), Length::mm(100).units()};
    material.lots.push_back(
        {999, large, 2 * static_cast<std::int64_t>(large.measure()), pence(1800), day(9)});
    const CutPlan plan = cut(material, {want(90, 90, 3)});
    require_sound(plan);
    CHECK(plan.to_buy == 0);
    CHECK(sources(plan)[Source::Kind::lot] == 3);
    // A fourth must be bought, and only it.
    CHECK(cut(material, {want(90, 90, 4)}).to_buy == 1);
}

TEST_CASE("what must be bought without a known price costs nothing and says so", "[cutting]") {
    const ShelfMaterial paper = sheets("P", Length::mm(300), Length::mm(300), {});
    const CutPlan plan = cut(paper, {want(300, 300, 2)});
    CHECK(plan.to_buy == 2);
    CHECK_FALSE(plan.to_buy_cost.has_value());
}

TEST_CASE("a price that does not divide evenly is rounded once for all that is bought",
          "[cutting]") {
    ShelfMaterial paper = sheets("P", Length::mm(300), Length::mm(300), {});
    paper.unit_price = barrow::base::Rational::of(100, 3); // three for 1.00
    const CutPlan plan = cut(paper, {want(300, 300, 4)});
    CHECK(plan.to_buy_cost == pence(133));
    Money sum;
    for (const SheetUse& sheet : plan.sheets) sum += sheet.cost;
    CHECK(sum == pence(133));
}

TEST_CASE("a kept remnant carries its share by area, the waste is left to the pieces",
          "[cutting]") {
    // By hand: 300 x 300 for 0.90; a piece of 300 x 150 leaves 300 x 150, which is half of it.
    ShelfMaterial paper = sheets("P", Length::mm(300), Length::mm(300), {{1, 90}});
    paper.least_useful = {Length::mm(100).units(), Length::mm(100).units()};
    const CutPlan plan = cut(paper, {want(300, 150, 1)});
    require_sound(plan);
    REQUIRE(plan.sheets[0].kept.size() == 1);
    CHECK(plan.sheets[0].kept[0].value == pence(45));
    CHECK(plan.sheets[0].waste_measure == 0);
    // A remnant below the least useful size is waste and carries nothing.
    paper.least_useful = {Length::mm(160).units(), Length::mm(160).units()};
    const CutPlan wasteful = cut(paper, {want(300, 150, 1)});
    require_sound(wasteful);
    CHECK(wasteful.sheets[0].kept.empty());
    CHECK(2 * wasteful.sheets[0].waste_measure == static_cast<std::int64_t>(paper.fresh.measure()));
}

TEST_CASE("the shop's rule may let a remnant carry a part of its share, or nothing", "[cutting]") {
    ShelfMaterial paper = sheets("P", Length::mm(300), Length::mm(300), {{1, 90}});
    paper.least_useful = {Length::mm(100).units(), Length::mm(100).units()};
    CutOptions options = quick();
    options.offcut_share = barrow::base::Rational::of(1, 3);
    CHECK(cut(paper, {want(300, 150, 1)}, options).sheets[0].kept[0].value == pence(15));
    options.offcut_share = barrow::base::Rational(0);
    const CutPlan plan = cut(paper, {want(300, 150, 1)}, options);
    REQUIRE(plan.sheets[0].kept.size() == 1); // it is kept all the same
    CHECK(plan.sheets[0].kept[0].value.is_zero());
}

TEST_CASE("trimmed borders and the blade's width are waste that the pieces pay", "[cutting]") {
    ShelfMaterial paper = sheets("P", Length::mm(300), Length::mm(310), {{1, 93}});
    paper.trim.bottom = Length::mm(10);
    paper.kerf = Length::mm(2);
    const CutPlan plan = cut(paper, {want(300, 149, 2)});
    require_sound(plan);
    REQUIRE(plan.sheets.size() == 1);
    const layout::Plan& own = plan.outcome.plans[0];
    for (const layout::Placed& placed : own.pieces) CHECK(placed.place.y >= Length::mm(10).units());
    CHECK(plan.sheets[0].waste_measure == Length::mm(300).units() * Length::mm(12).units());
}

TEST_CASE("pieces that may not be turned lie upright in every plan", "[cutting]") {
    const ShelfMaterial paper = sheets("P", Length::mm(305), Length::mm(203), {{9, 900}});
    for (const Turn turn : {Turn::none, Turn::half}) {
        const CutPlan plan = cut(paper, {want(60, 100, 7, turn), want(100, 50, 5, turn)});
        require_sound(plan);
        for (const layout::Plan& own : plan.outcome.plans)
            for (const layout::Placed& placed : own.pieces) {
                CHECK_FALSE(placed.turned);
                CHECK(placed.place.width == plan.wants[placed.piece].size.width);
            }
    }
}

TEST_CASE("a piece cut across the grain of its sheet is laid crosswise and not turned back",
          "[cutting]") {
    const ShelfMaterial board = sheets("B", Length::mm(400), Length::mm(300), {{3, 300}});
    CutWant crosswise = want(200, 390, 1, Turn::half);
    crosswise.crosswise = true;
    const CutPlan plan = cut(board, {crosswise});
    require_sound(plan);
    const layout::Rectangle& place = plan.outcome.plans[0].pieces[0].place;
    CHECK(place.width == Length::mm(390).units());
    CHECK(place.height == Length::mm(200).units());
    CHECK(plan.sheets[0].pieces_measure == Length::mm(390).units() * Length::mm(200).units());
}

TEST_CASE("of a length cut further the rest keeps its label", "[cutting]") {
    ShelfMaterial ribbon = rolls("R", Length::mm(10000), {});
    ribbon.least_useful = {0, Length::mm(250).units()};
    ribbon.offcuts = {{4, "X4", {Length::mm(7000).units(), 1}, pence(224), 3, 1}};
    CutWant tie;
    tie.size = {Length::mm(600).units(), 1};
    tie.count = 5;
    const CutPlan plan = cut(ribbon, {tie});
    require_sound(plan);
    REQUIRE(plan.sheets.size() == 1);
    REQUIRE(plan.sheets[0].kept.size() == 1);
    CHECK(plan.sheets[0].kept[0].keeps_code);
    CHECK(plan.sheets[0].kept[0].value == pence(128)); // 4 m of 7 m at 2.24
}

TEST_CASE("a sheet's remnant gets a label of its own, also when cut from an offcut", "[cutting]") {
    ShelfMaterial paper = sheets("P", Length::mm(300), Length::mm(300), {});
    paper.least_useful = {Length::mm(50).units(), Length::mm(50).units()};
    paper.offcuts = {offcut(4, 300, 200, 60)};
    const CutPlan plan = cut(paper, {want(300, 100, 1)});
    REQUIRE(plan.sheets.size() == 1);
    REQUIRE(plan.sheets[0].kept.size() == 1);
    CHECK_FALSE(plan.sheets[0].kept[0].keeps_code);
    CHECK(plan.sheets[0].kept[0].value == pence(30));
}

TEST_CASE("lots of another size than usual are used at their own size", "[cutting]") {
    ShelfMaterial paper = sheets("P", Length::mm(300), Length::mm(300), {{1, 90}});
    paper.lots.push_back(paper.lots[0]);
    paper.lots[1].id += 1;
    paper.lots[1].size = {Length::mm(600).units(), Length::mm(300).units()};
    paper.lots[1].quantity = static_cast<std::int64_t>(paper.lots[1].size.measure());
    const CutPlan plan = cut(paper, {want(300, 300, 3)});
    require_sound(plan);
    CHECK(plan.to_buy == 0);
    CHECK(plan.sheets.size() == 2);
}

TEST_CASE("a length longer than a roll is refused with both measures", "[cutting]") {
    const ShelfMaterial ribbon = rolls("RIB", Length::mm(1000), {{3, 100}});
    CutWant tie;
    tie.size = {Length::mm(1200).units(), 1};
    tie.count = 1;
    try {
        cut(ribbon, {tie});
        FAIL("a tie of 1200 mm was cut from rolls of 1000 mm");
    } catch (const Error& error) {
        CHECK(error.kind() == Kind::refused);
        CHECK_THAT(error.what(),
                   Catch::Contains("1200 mm cannot be cut in one piece from RIB, which "
                                   "comes as 1000 mm"));
    }
}

TEST_CASE("the same demand is always cut the same way", "[cutting]") {
    ShelfMaterial paper = sheets("P", Length::mm(305), Length::mm(305), {{30, 3000}});
    paper.least_useful = {Length::mm(50).units(), Length::mm(80).units()};
    paper.offcuts = {offcut(1, 305, 104, 30), offcut(2, 150, 150, 20), offcut(3, 200, 90, 15)};
    const auto once = cut(paper, {want(140, 90, 7, Turn::quarter), want(296, 201, 4)});
    const auto again = cut(paper, {want(140, 90, 7, Turn::quarter), want(296, 201, 4)});
    require_sound(once);
    REQUIRE(once.sheets.size() == again.sheets.size());
    for (std::size_t i = 0; i < once.sheets.size(); ++i) {
        CHECK(once.sheets[i].source == again.sheets[i].source);
        CHECK(once.sheets[i].cost == again.sheets[i].cost);
    }
    CHECK(once.outcome.work == again.outcome.work);
}
