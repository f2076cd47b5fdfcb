#include "layout/columns/pattern_lp.hpp"
#include "layout/corner/corner.hpp"
#include "layout/rounding/whole_use.hpp"
#include "layout/sets/set_shapes.hpp"
#include "layout/solve.hpp"
#include "layout/table/near_best.hpp"

#include "published.hpp"
#include "support.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

using namespace barrow::layout;
using namespace barrow::layout::test;

namespace {

using Columns = std::vector<WholeBasis::Column>;

/// Elements that are nothing when taken so many times.
int nothing_after(const ResidueGroup& group, int times) {
    int count = 0;
    for (ResidueGroup::Element e = 0; e < group.size(); ++e) {
        ResidueGroup::Element sum = 0;
        for (int n = 0; n < times; ++n) sum = group.sum(sum, e);
        count += sum == 0 ? 1 : 0;
    }
    return count;
}

Columns random_columns(Dice& dice, std::size_t size, std::int64_t most) {
    Columns columns(size, WholeBasis::Column(size));
    for (auto& column : columns)
        for (auto& entry : column) entry = dice.roll(-1, most);
    return columns;
}

struct Cover {
    std::vector<std::int64_t> demand;
    std::vector<Corner::Column> columns;
};

/// Few rows and columns; the first ones hold one row each, so that all can be covered.
Cover random_cover(Dice& dice) {
    Cover cover;
    const std::int64_t rows = dice.roll(1, 3);
    for (std::int64_t r = 0; r < rows; ++r) cover.demand.push_back(dice.roll(1, 14));
    const std::int64_t columns = rows + dice.roll(0, 5);
    for (std::int64_t c = 0; c < columns; ++c) {
        Corner::Column column;
        column.cost = 5 * dice.roll(4, 9);
        for (std::int64_t r = 0; r < rows; ++r) {
            const std::int64_t count = c < rows ? (c == r ? dice.roll(1, 3) : 0) : dice.roll(0, 3);
            if (count > 0) column.counts.emplace_back(static_cast<std::int32_t>(r), count);
        }
        if (!column.counts.empty()) cover.columns.push_back(column);
    }
    return cover;
}

Corner corner_of(const Cover& cover, Meter& meter) {
    Corner corner(cover.demand, 5, meter);
    for (const Corner::Column& column : cover.columns) corner.add(column);
    return corner;
}

/// Pieces with sides between two measures, so many of each that demands hardly bind a pattern.
void add_kinds(Job& job, Dice& dice, int kinds, std::pair<Measure, Measure> sides) {
    for (int kind = 0; kind < kinds; ++kind) {
        const Turn turn = dice.chance(50) ? Turn::quarter : Turn::none;
        job.pieces.push_back(piece("p" + std::to_string(kind), dice.roll(sides.first, sides.second),
                                   dice.roll(sides.first, sides.second), dice.roll(70, 120), turn));
    }
}

std::int64_t row(const std::vector<std::int64_t>& numbers, std::int32_t at) {
    return numbers[static_cast<std::size_t>(at)];
}

/// Tries everything.
std::int64_t least_by_trial(const Cover& cover, std::vector<std::int64_t> left, std::size_t first) {
    if (std::all_of(left.begin(), left.end(), [](std::int64_t n) { return n <= 0; })) return 0;
    std::int64_t best = 1'000'000;
    for (std::size_t c = first; c < cover.columns.size(); ++c) {
        std::vector<std::int64_t> then = left;
        bool useful = false;
        for (const auto& [r, count] : cover.columns[c].counts) {
            useful = useful || row(left, r) > 0;
            then[static_cast<std::size_t>(r)] -= count;
        }
        if (useful) best = std::min(best, cover.columns[c].cost + least_by_trial(cover, then, c));
    }
    return best;
}

/// All bases in turn, until one is that of an optimal LP answer: the corner itself says so.
template <class Run>
void with_all_bases(const Cover& cover, const Run& run) {
    const std::size_t rows = cover.demand.size();
    const std::size_t numbers = cover.columns.size() + rows;
    std::vector<std::size_t> order(numbers);
    for (std::size_t i = 0; i < numbers; ++i) order[i] = i;
    std::vector<bool> in(numbers, false);
    std::fill(in.begin(), in.begin() + static_cast<std::ptrdiff_t>(rows), true);
    do {
        std::vector<std::size_t> basis;
        for (std::size_t i = 0; i < numbers; ++i)
            if (in[i]) basis.push_back(i);
        run(basis);
    } while (std::prev_permutation(in.begin(), in.end()));
}

std::int64_t cost_of(const Cover& cover, const std::vector<std::int64_t>& uses) {
    std::vector<std::int64_t> left = cover.demand;
    std::int64_t cost = 0;
    for (std::size_t c = 0; c < uses.size(); ++c) {
        CHECK(uses[c] >= 0);
        cost += uses[c] * cover.columns[c].cost;
        for (const auto& [r, count] : cover.columns[c].counts)
            left[static_cast<std::size_t>(r)] -= count * uses[c];
    }
    CHECK(std::all_of(left.begin(), left.end(), [](std::int64_t n) { return n <= 0; }));
    return cost;
}

} // namespace

TEST_CASE("a basis times its inverse is its determinant", "[corner]") {
    Dice dice(7);
    int regular = 0;
    for (int round = 0; round < 300; ++round) {
        const auto size = static_cast<std::size_t>(dice.roll(1, 7));
        const Columns columns = random_columns(dice, size, 4);
        const auto basis = WholeBasis::of(columns);
        CHECK(basis.has_value() == (independent(columns, size).size() == size));
        if (!basis) continue;
        ++regular;
        CHECK(basis->determinant() > 0);
        for (std::size_t i = 0; i < size; ++i)
            for (std::size_t j = 0; j < size; ++j) {
                std::int64_t sum = 0;
                for (std::size_t r = 0; r < size; ++r)
                    sum += basis->inverse()[i][r] * columns[j][r];
                CHECK(sum == (i == j ? basis->determinant() : 0));
            }
    }
    CHECK(regular > 200);
}

// The Smith normal form of this matrix is diag(2, 6, 12): a worked example often shown, given here
// from memory; its determinant is -144 by hand.
TEST_CASE("residues of a basis make the group that its Smith normal form says", "[corner]") {
    const auto basis = WholeBasis::of({{2, -6, 10}, {4, 6, -4}, {4, 12, -16}});
    REQUIRE(basis);
    CHECK(basis->determinant() == 144);
    const ResidueGroup group(*basis);
    CHECK(group.size() == 144);
    // Of cycles of 2, 6 and 12.
    CHECK(nothing_after(group, 2) == 2 * 2 * 2);
    CHECK(nothing_after(group, 3) == 1 * 3 * 3);
    CHECK(nothing_after(group, 4) == 2 * 2 * 4);
    CHECK(nothing_after(group, 6) == 2 * 6 * 6);
    CHECK(nothing_after(group, 12) == 144);
}

TEST_CASE("a residue is nothing where the basis makes it up in whole numbers, only", "[corner]") {
    Dice dice(8);
    for (int round = 0; round < 100; ++round) {
        const auto size = static_cast<std::size_t>(dice.roll(1, 5));
        const auto basis = WholeBasis::of(random_columns(dice, size, 3));
        if (!basis) continue;
        const ResidueGroup group(*basis);
        CHECK(group.size() == basis->determinant());
        for (int n = 0; n < 20; ++n) {
            WholeBasis::Column a(size);
            WholeBasis::Column b(size);
            for (auto& entry : a) entry = dice.roll(-9, 9);
            for (auto& entry : b) entry = dice.roll(-9, 9);
            bool whole = true;
            for (const auto& line : basis->inverse()) {
                std::int64_t times = 0;
                for (std::size_t r = 0; r < size; ++r) times += line[r] * a[r];
                whole = whole && times % basis->determinant() == 0;
            }
            CHECK((group.element(a) == 0) == whole);
            WholeBasis::Column both = a;
            for (std::size_t r = 0; r < size; ++r) both[r] += b[r];
            CHECK(group.sum(group.element(a), group.element(b)) == group.element(both));
            CHECK(group.sum(group.element(a), group.negative(group.element(a))) == 0);
        }
    }
}

TEST_CASE("whole uses found in a corner cost as trial says, bounds never more", "[corner]") {
    Dice dice(9);
    const Options options;
    int optimal = 0;
    int bounds = 0;
    int above_lp = 0;
    for (int round = 0; round < 50; ++round) {
        const Cover cover = random_cover(dice);
        const std::int64_t least = least_by_trial(cover, cover.demand, 0);
        with_all_bases(cover, [&](const std::vector<std::size_t>& basis) {
            Meter meter(options, 1'000'000);
            Corner corner = corner_of(cover, meter);
            if (!corner.choose_basis(basis, 100'000)) return;
            const std::int64_t by_lp = corner.bound();
            const Corner::End end = corner.run(least, 20'000'000);
            if (end == Corner::End::unfit) return;
            ++bounds;
            CHECK(corner.bound() <= least);
            CHECK(corner.bound() >= by_lp);
            CHECK(end != Corner::End::impossible);
            above_lp += corner.bound() > by_lp ? 1 : 0;
            if (end != Corner::End::found) return;
            CHECK(cost_of(cover, corner.uses()) == least);
            optimal += corner.bound() == least ? 1 : 0;
            Meter other(options, 1'000'000);
            Corner lower = corner_of(cover, other);
            REQUIRE(lower.choose_basis(basis, 100'000));
            CHECK(lower.run(least - 5, 20'000'000) != Corner::End::found);
        });
    }
    CHECK(bounds >= 60);
    CHECK(optimal * 10 > bounds * 8);
    CHECK(above_lp > 15);
}

// COIN-OR Cbc, a solver for programs in whole numbers, over all sets that can be cut.
TEST_CASE("orders proven to cost least cost as much as a solver of programs says", "[corner]") {
    Dice dice(11);
    const Options options;
    int equal = 0;
    for (int round = 0; round < 6; ++round) {
        Job job;
        job.stock = {stock("a", 50, 50, 100), stock("b", 60, 40, 97), stock("c", 56, 45, 102)};
        const int kinds = static_cast<int>(dice.roll(3, 5));
        add_kinds(job, dice, kinds, {12, 38});
        const Outcome outcome = solve(job);
        INFO(faults(job, outcome));
        CHECK(faults(job, outcome).empty());
        const Instance instance = instance_of(job);
        Meter meter(options, 10'000'000);
        SetShapes shapes(instance);
        REQUIRE(shapes.enumerate(500'000'000, 20'000, meter));
        PatternLp lp(instance, meter);
        for (std::size_t s = 0; s < shapes.sets().size(); ++s)
            for (std::size_t sheet = 0; sheet < instance.sheets.size(); ++sheet) {
                const SetShapes::Set& set = shapes.sets()[s];
                const std::int32_t shape = shapes.shape_on(set, instance.sheets[sheet]);
                if (shape >= 0) lp.add(sheet, shapes.block(static_cast<std::int32_t>(s), shape));
            }
        REQUIRE(lp.resolve());
        const auto uses = lp.whole_uses(3000, outcome.cost);
        CHECK(covers(instance, lp, uses));
        const Solution solver = answer_of_uses(instance, lp, uses);
        CHECK(solver.cost >= outcome.bound);
        if (outcome.status == Status::optimal) equal += solver.cost == outcome.cost ? 1 : 0;
    }
    CHECK(equal >= 4);
}

// What is distributed with the instances as best known is given in ../published.hpp; both are less
// and proven, and checked by the checker that knows nothing of the search.
TEST_CASE("published orders from several kinds of sheet cost least, and proven", "[corner]") {
    Job job = job_of(gcut5d, 500, 500, Turn::quarter);
    job.stock = {stock("a", 500, 500, 250'000), stock("b", 600, 400, 240'000),
                 stock("c", 550, 450, 247'500)};
    Outcome outcome = solve(job);
    CHECK(faults(job, outcome).empty());
    CHECK(outcome.unplaced.empty());
    CHECK(outcome.cost == 38'505'000);
    CHECK(outcome.status == Status::optimal);
    job = job_of(gcut1d, 250, 250, Turn::quarter);
    job.stock = {stock("a", 250, 250, 62'500), stock("b", 275, 225, 61'875),
                 stock("c", 300, 200, 60'000)};
    outcome = solve(job);
    CHECK(faults(job, outcome).empty());
    CHECK(outcome.unplaced.empty());
    CHECK(outcome.cost == 13'795'625);
    CHECK(outcome.status == Status::optimal);
}

// Sets that can be cut at all come from SetShapes, which knows nothing of tables.
TEST_CASE("all that is worth nearly the best is listed, and can be cut", "[corner]") {
    Dice dice(10);
    const Options options;
    int listed = 0;
    for (int round = 0; round < 60; ++round) {
        Job job;
        job.stock = {stock("a", dice.roll(14, 22), dice.roll(14, 22), 1),
                     stock("b", dice.roll(14, 22), dice.roll(14, 22), 1)};
        std::vector<std::int64_t> values;
        add_kinds(job, dice, 4, {4, 12});
        if (!examine(job).empty()) continue;
        const Instance instance = instance_of(job);
        for (const Item& item : instance.items)
            values.push_back(dice.chance(10) ? 0 : item.area() + dice.roll(-5, 5));
        Meter meter(options, 10'000'000);
        SetShapes shapes(instance);
        if (!shapes.enumerate(500'000'000, 20'000, meter)) continue;
        const Grid grid = grid_of(instance, 1000);
        NearBest near(instance, grid, values, meter);
        std::vector<std::int64_t> least;
        for (const Sheet& sheet : instance.sheets) least.push_back(sheet.area() * 3 / 4);
        REQUIRE(near.list(least, 1'000'000'000, 1'000'000));
        const auto found = near.found();
        const auto worth = [&](const NearBest::Counts& counts) {
            std::int64_t sum = 0;
            for (const auto& [kind, count] : counts)
                sum += values[static_cast<std::size_t>(kind)] * count;
            return sum;
        };
        for (const NearBest::Found& pattern : found) {
            ++listed;
            const Sheet& sheet = instance.sheets[pattern.sheet];
            const Block block = near.block(pattern);
            CHECK(block.width <= sheet.width);
            CHECK(block.height <= sheet.height);
            std::vector<std::int64_t> counts(values.size(), 0);
            count_items(block, counts);
            for (const auto& [kind, count] : *pattern.counts)
                counts[static_cast<std::size_t>(kind)] -= count;
            CHECK(std::all_of(counts.begin(), counts.end(), [](std::int64_t n) { return n == 0; }));
            CHECK(worth(*pattern.counts) >= least[pattern.sheet]);
        }
        for (const SetShapes::Set& set : shapes.sets()) {
            std::vector<std::int64_t> counts;
            std::int64_t value = 0;
            for (std::size_t kind = 0; kind < values.size(); ++kind) {
                counts.push_back(shapes.count(set, kind));
                value += counts.back() * values[kind];
            }
            for (std::size_t s = 0; s < instance.sheets.size(); ++s) {
                if (value < least[s] || shapes.shape_on(set, instance.sheets[s]) < 0) continue;
                CHECK(std::any_of(found.begin(), found.end(), [&](const NearBest::Found& pattern) {
                    if (pattern.sheet != s) return false;
                    std::vector<std::int64_t> missing = counts;
                    for (const auto& [kind, count] : *pattern.counts)
                        missing[static_cast<std::size_t>(kind)] -= count;
                    return std::all_of(missing.begin(), missing.end(),
                                       [](std::int64_t n) { return n <= 0; });
                }));
            }
        }
    }
    CHECK(listed > 1000);
}
