#include "costing/cutting/fraction_sum.hpp"
#include "costing/cutting/share_out.hpp"

#include "costing/price/journal_shares.hpp"

#include "costing/stock.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <numeric>
#include <random>

using namespace barrow::costing;
using namespace barrow::test;
namespace base = barrow::base;
namespace layout = barrow::layout;

namespace {

/// A cut plan of random sheets. Where pieces lie does not matter to who pays: only areas do.
class RandomPlan {
public:
    explicit RandomPlan(std::uint64_t seed) : random_(seed) {
        plan.wants.resize(1 + below(6));
        const std::size_t kinds = 1 + below(4);
        for (std::size_t p = 0; p < kinds; ++p) add_kind(p);
    }
    CutPlan plan;

private:
    std::size_t below(std::uint64_t limit) { return random_() % limit; }

    void add_kind(std::size_t p) {
        const auto height = static_cast<std::int64_t>(50 + below(300'000));
        layout::Plan kind;
        std::int64_t x = 0;
        for (std::size_t i = 0; i <= below(7); ++i) {
            const auto width = static_cast<std::int64_t>(1 + below(90'000));
            kind.pieces.push_back({below(plan.wants.size()), {x, 0, width, height}, false});
            x += width;
        }
        const auto kept = static_cast<std::int64_t>(below(3) == 0 ? 0 : 1 + below(50'000));
        const auto waste = static_cast<std::int64_t>(below(3) == 0 ? 0 : below(50'000));
        for (std::size_t copy = 0; copy <= below(5); ++copy) {
            SheetUse sheet;
            sheet.plan = p;
            sheet.source.kind = below(3) == 0 ? Source::Kind::offcut : Source::Kind::lot;
            sheet.size = {x + kept + waste, height};
            sheet.cost = pence(static_cast<std::int64_t>(below(4) == 0 ? 0 : below(5000)));
            sheet.pieces_measure = x * height;
            sheet.kept_measure = kept * height;
            sheet.waste_measure = waste * height;
            if (kept > 0)
                sheet.kept.push_back(
                    {{x, 0, kept, height}, base::share(sheet.cost, kept, x + kept + waste), false});
            plan.sheets.push_back(sheet);
        }
        plan.outcome.plans.push_back(kind);
    }

    std::mt19937_64 random_;
};

Money pieces_pay(const SheetUse& sheet) {
    Money pays = sheet.cost;
    for (const Kept& kept : sheet.kept) pays -= kept.value;
    return pays;
}

/// What the pieces of each want owe, by the plain rule and in floating point: good to far better
/// than a minor unit.
std::vector<long double> owed(const CutPlan& plan, bool offcuts) {
    std::vector<long double> owed(plan.wants.size());
    for (const SheetUse& sheet : plan.sheets) {
        if ((sheet.source.kind == Source::Kind::offcut) != offcuts) continue;
        for (const layout::Placed& placed : plan.outcome.plans[sheet.plan].pieces)
            owed[placed.piece] += static_cast<long double>(placed.place.width)
                                  * static_cast<long double>(placed.place.height)
                                  / static_cast<long double>(sheet.pieces_measure)
                                  * static_cast<long double>(pieces_pay(sheet).minor());
    }
    return owed;
}

} // namespace

TEST_CASE("the pieces of thousands of plans pay their sheets to the minor unit", "[share_out]") {
    for (std::uint64_t seed = 1; seed <= 4000; ++seed) {
        const CutPlan plan = RandomPlan(seed).plan;
        Money from_new;
        Money from_offcuts;
        for (const SheetUse& sheet : plan.sheets)
            (sheet.source.kind == Source::Kind::offcut ? from_offcuts : from_new) +=
                pieces_pay(sheet);
        const auto costs = share_among_wants(plan);
        Money shared_new;
        Money shared_offcuts;
        const auto owed_new = owed(plan, false);
        const auto owed_offcuts = owed(plan, true);
        CAPTURE(seed);
        for (std::size_t i = 0; i < costs.size(); ++i) {
            shared_new += costs[i].from_new;
            shared_offcuts += costs[i].from_offcuts;
            REQUIRE(costs[i].from_new.minor() >= 0);
            REQUIRE(costs[i].waste.minor() >= 0);
            REQUIRE(costs[i].waste <= costs[i].from_new + costs[i].from_offcuts + pence(1));
            REQUIRE(static_cast<long double>(costs[i].from_new.minor()) - owed_new[i] < 1.01L);
            REQUIRE(owed_new[i] - static_cast<long double>(costs[i].from_new.minor()) < 1.01L);
            REQUIRE(static_cast<long double>(costs[i].from_offcuts.minor()) - owed_offcuts[i]
                    < 1.01L);
            REQUIRE(owed_offcuts[i] - static_cast<long double>(costs[i].from_offcuts.minor())
                    < 1.01L);
        }
        REQUIRE(shared_new == from_new);
        REQUIRE(shared_offcuts == from_offcuts);
    }
}

TEST_CASE("who takes more of a sheet pays more, and waste is paid by the pieces", "[share_out]") {
    // By hand: a sheet of 100 x 10 for 1.00; 50 and 25 of its width are pieces, 25 are waste. The
    // pieces pay it all, two to one: 0.67 and 0.33; by their own area they would pay 0.50 and 0.25.
    CutPlan plan;
    plan.wants.resize(2);
    plan.outcome.plans.push_back({});
    plan.outcome.plans[0].pieces = {{0, {0, 0, 50, 10}, false}, {1, {50, 0, 25, 10}, false}};
    SheetUse sheet;
    sheet.size = {100, 10};
    sheet.cost = pence(100);
    sheet.pieces_measure = 750;
    sheet.waste_measure = 250;
    plan.sheets = {sheet};
    const auto costs = share_among_wants(plan);
    CHECK(costs[0].from_new == pence(67));
    CHECK(costs[1].from_new == pence(33));
    CHECK(costs[0].waste == pence(17));
    CHECK(costs[1].waste == pence(8));
}

TEST_CASE("no part pays the odd penny of every sheet", "[share_out]") {
    // Thirty sheets of 1.01, each shared evenly by two parts: 15.15 each, not 15.30 and 15.00.
    CutPlan plan;
    plan.wants.resize(2);
    plan.outcome.plans.push_back({});
    plan.outcome.plans[0].pieces = {{0, {0, 0, 50, 10}, false}, {1, {50, 0, 50, 10}, false}};
    SheetUse sheet;
    sheet.size = {100, 10};
    sheet.cost = pence(101);
    sheet.pieces_measure = 1000;
    plan.sheets.assign(30, sheet);
    const auto costs = share_among_wants(plan);
    CHECK(costs[0].from_new == pence(1515));
    CHECK(costs[1].from_new == pence(1515));
}

TEST_CASE("counted things share what they cost by number", "[share_out]") {
    CHECK(share_among_plains(pence(100), {{{0, 0}, 2}, {{0, 1}, 1}})
          == std::vector<Money>{pence(67), pence(33)});
    CHECK(share_among_plains(pence(0), {{{0, 0}, 2}}) == std::vector<Money>{pence(0)});
}

namespace {

std::vector<std::int64_t> among_journals(std::int64_t total, std::int64_t journals,
                                         const std::vector<PartShare>& parts) {
    std::vector<std::int64_t> minor;
    for (const Money one : share_among_journals(pence(total), journals, parts))
        minor.push_back(one.minor());
    return minor;
}

} // namespace

// Worked by hand: a dear paper of 9.00 is borne by the two journals that have it, a cheap one of
// 3.00 by the third, what all have by all.
TEST_CASE("each journal bears the papers it has", "[share]") {
    const PartShare dear{pence(900), {{1, 2}}};
    const PartShare cheap{pence(300), {{3, 3}}};
    const PartShare all{pence(600), {}};
    CHECK(among_journals(1'800, 3, {dear, cheap, all}) == std::vector<std::int64_t>{650, 650, 500});
    // Twice as much was really spent: the same in proportion.
    CHECK(among_journals(3'600, 3, {dear, cheap, all})
          == std::vector<std::int64_t>{1'300, 1'300, 1'000});
    // A paper that comes back later in the run.
    CHECK(among_journals(1'200, 4, {{pence(900), {{1, 1}, {3, 4}}}, {pence(300), {{2, 2}}}})
          == std::vector<std::int64_t>{300, 300, 300, 300});
}

TEST_CASE("a run's cost is divided to the penny, also where it does not go", "[share]") {
    CHECK(among_journals(100, 3, {}) == std::vector<std::int64_t>{34, 33, 33});
    CHECK(among_journals(0, 2, {{pence(0), {}}}) == std::vector<std::int64_t>{0, 0});
    CHECK(among_journals(101, 2, {{pence(0), {{1, 1}}}}) == std::vector<std::int64_t>{51, 50});
    std::mt19937_64 random(7);
    const auto below = [&random](std::uint64_t limit) {
        return static_cast<std::int64_t>(random() % limit);
    };
    for (int round = 0; round < 200; ++round) {
        const std::int64_t journals = 1 + below(30);
        std::vector<PartShare> parts;
        for (std::int64_t n = below(5); n >= 0; --n) {
            PartShare part{pence(below(3) == 0 ? 0 : below(10'000)), {}};
            const std::int64_t first = 1 + below(static_cast<std::uint64_t>(journals));
            if (below(2) == 0) part.journals = {{first, journals}};
            parts.push_back(part);
        }
        const std::int64_t total = below(100'000);
        const auto shares = among_journals(total, journals, parts);
        CHECK(std::accumulate(shares.begin(), shares.end(), std::int64_t{0}) == total);
        CHECK(std::all_of(shares.begin(), shares.end(), [](auto share) { return share >= 0; }));
    }
}

TEST_CASE("a dear sheet is shared exactly, not to a millionth of it", "[share_out]") {
    // By hand: 14,300 of 20,717 square units of pieces pay 14300/20717 of 850,000.00, which is
    // 586,716.223...; 4,900 pay 201,042.622... and 1,517 pay 62,241.154...
    CutPlan plan;
    plan.wants.resize(3);
    SheetUse sheet;
    sheet.size = {310, 290};
    sheet.cost = pence(85'000'000);
    sheet.pieces_measure = 4'900 + 14'300 + 1'517;
    sheet.waste_measure = 310 * 290 - sheet.pieces_measure;
    plan.sheets.push_back(sheet);
    layout::Plan layout;
    layout.pieces.push_back({0, {0, 0, 70, 70}, false});
    layout.pieces.push_back({1, {70, 0, 110, 130}, false});
    layout.pieces.push_back({2, {180, 0, 37, 41}, false});
    plan.outcome.plans.push_back(layout);
    const auto costs = share_among_wants(plan);
    CHECK(costs[0].from_new == pence(20'104'262));
    CHECK(costs[1].from_new == pence(58'671'622));
    CHECK(costs[2].from_new == pence(6'224'116));
}

TEST_CASE("three thirds are one, whatever sheets they come from", "[share_out]") {
    // Two kinds of sheet for 0.01 each: the first divided in three parts, the second in six. One
    // want has 1/3 + 1/6 + 1/2 of a penny by way of different divisors: exactly one penny.
    FractionSum sum;
    sum.add(1, 3);
    sum.add(1, 6);
    CHECK(sum.floor() == 0);
    CHECK(sum.rounded() == 1);
    sum.add(1, 2);
    CHECK(sum.floor() == 1);
    CHECK(sum.rounded() == 1);
    FractionSum third;
    third.add(1, 3);
    CHECK(FractionSum::leaves_more(third, sum));
    CHECK_FALSE(FractionSum::leaves_more(sum, third));
    sum.add(Wide(1) << 100, (std::int64_t{1} << 62) - 57);
    CHECK(sum.floor()
          == 1 + static_cast<std::int64_t>((Wide(1) << 100) / ((std::int64_t{1} << 62) - 57)));
}

TEST_CASE("journals alike cost the same to a minor unit, and nothing is lost", "[share_out]") {
    std::mt19937_64 random(10);
    const auto below = [&](std::int64_t limit) {
        return static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(limit));
    };
    for (int round = 0; round < 3000; ++round) {
        const std::int64_t number = 1 + below(12);
        std::vector<std::int64_t> kinds;
        std::vector<Money> materials;
        for (std::int64_t j = 0; j < number; ++j) {
            kinds.push_back(below(3));
            materials.push_back(pence(100 * kinds.back() + below(2)));
        }
        const Money labour = pence(below(2000));
        const Money overheads = pence(below(2000));
        const auto costs = share_work(materials, labour, overheads, below(2) == 0, kinds);
        const auto sum = [](const std::vector<Money>& all) {
            return std::accumulate(all.begin(), all.end(), Money());
        };
        REQUIRE(costs.materials == materials);
        REQUIRE(sum(costs.labour) == labour);
        REQUIRE(sum(costs.overheads) == overheads);
        const auto total = [&](std::int64_t j) {
            const auto at = static_cast<std::size_t>(j);
            return (costs.materials[at] + costs.labour[at] + costs.overheads[at]).minor();
        };
        for (std::int64_t a = 0; a < number; ++a)
            for (std::int64_t b = 0; b < a; ++b)
                if (kinds[static_cast<std::size_t>(a)] == kinds[static_cast<std::size_t>(b)])
                    REQUIRE(std::abs(total(a) - total(b)) <= 1);
    }
}
