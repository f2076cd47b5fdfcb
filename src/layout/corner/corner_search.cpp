#include "layout/corner/corner_search.hpp"

#include "base/wide.hpp"
#include "layout/corner/corner.hpp"
#include "layout/lp/linear_program.hpp"
#include "layout/table/near_best.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>
#include <tuple>

namespace barrow::layout {
namespace {

constexpr std::int64_t most_elements = 4'000'000; // of the group: 32 MB
constexpr std::size_t most_cells = 4'000'000;     // of the table: 32 MB
constexpr std::size_t most_entries = 1'000'000;   // nearly best sets: some 200 MB
constexpr std::size_t most_patterns = 100'000;    // given to a corner relaxation

using Counts = std::vector<std::pair<std::int32_t, std::int64_t>>;

/// A corner relaxation whose columns are patterns, candidates for the LP's basis first.
class PatternCorner {
public:
    PatternCorner(const Instance& instance, const PatternLp& lp, Meter& meter)
        : instance_(instance), lp_(lp), corner_(demand_of(instance), lp.step(), meter) {
        for (std::size_t c = 0; c < lp.columns().size(); ++c)
            if (may_be_basic(c))
                add(
                    lp.columns()[c].sheet, lp.columns()[c].counts,
                    [&lp, c] { return lp.columns()[c].block; }, lp.use(c));
    }

    Corner& corner() { return corner_; }
    bool too_many() const { return from_.size() > most_patterns; }

    /// Candidates: the most used, then those with reduced cost 0. Before others are added.
    bool choose_basis() {
        std::vector<std::tuple<double, std::size_t>> ranked;
        for (const From& from : from_) ranked.emplace_back(-from.use, from.number);
        for (std::size_t kind = 0; kind < instance_.items.size(); ++kind)
            if (lp_.price_of(kind) < nearly)
                ranked.emplace_back(-nearly / 2, corner_.surplus(kind));
        std::sort(ranked.begin(), ranked.end());
        std::vector<std::size_t> order;
        order.reserve(ranked.size());
        for (const auto& [use, number] : ranked) order.push_back(number);
        return corner_.choose_basis(order, most_elements);
    }

    /// Adds a pattern unless present. `use`: in the LP.
    void add(std::size_t sheet, const Counts& counts, std::function<Block()> block,
             double use = 0) {
        if (!known_.emplace(sheet, counts).second) return;
        const std::size_t number = corner_.add({instance_.sheets[sheet].cost, counts});
        from_.push_back({sheet, number, use, std::move(block)});
    }

    /// The answer of the last uses found; empty where there are not enough copies of a sheet.
    std::optional<Solution> solution() const {
        Solution solution;
        solution.unplaced.assign(instance_.items.size(), 0);
        std::vector<std::int64_t> used(instance_.sheets.size(), 0);
        for (std::size_t c = 0; c < from_.size(); ++c) {
            const std::int64_t uses = corner_.uses()[c];
            if (uses == 0) continue;
            solution.patterns.push_back({from_[c].sheet, uses, from_[c].block()});
            solution.cost += uses * instance_.sheets[from_[c].sheet].cost;
            used[from_[c].sheet] += uses;
        }
        for (std::size_t s = 0; s < used.size(); ++s)
            if (used[s] > instance_.sheets[s].copies) return {};
        take_out_surplus(instance_, solution);
        return solution;
    }

private:
    struct From {
        std::size_t sheet = 0;
        std::size_t number = 0;
        double use = 0;
        std::function<Block()> block;
    };

    static std::vector<std::int64_t> demand_of(const Instance& instance) {
        std::vector<std::int64_t> demand;
        for (const Item& item : instance.items) demand.push_back(item.demand);
        return demand;
    }

    bool may_be_basic(std::size_t column) const {
        if (lp_.use(column) > nearly) return true;
        const PatternLp::Column& pattern = lp_.columns()[column];
        const auto cost = static_cast<double>(instance_.sheets[pattern.sheet].cost);
        double beyond = cost - lp_.rent(pattern.sheet);
        for (const auto& [kind, count] : pattern.counts)
            beyond -= lp_.price_of(static_cast<std::size_t>(kind)) * static_cast<double>(count);
        return beyond < nearly * cost;
    }

    const Instance& instance_;
    const PatternLp& lp_;
    Corner corner_;
    std::vector<From> from_; ///< of each column
    std::set<std::pair<std::size_t, Counts>> known_;
};

/// Adds all sets, except those to which one more piece of some kind could be added; false when
/// there are too many.
bool add_whole_sets(const Instance& instance, const SetShapes& shapes, PatternCorner& patterns) {
    const auto cut = [&](const SetShapes::Set& set, std::size_t sheet) {
        return shapes.shape_on(set, instance.sheets[sheet]);
    };
    const auto whole = [&](const SetShapes::Set& set, std::size_t sheet) {
        for (std::size_t kind = 0; kind < instance.items.size(); ++kind) {
            if (shapes.count(set, kind) >= instance.items[kind].demand) continue;
            const std::int32_t larger = shapes.find(set.key + shapes.unit(kind));
            if (larger >= 0 && cut(shapes.sets()[static_cast<std::size_t>(larger)], sheet) >= 0)
                return false;
        }
        return true;
    };
    for (std::size_t s = 0; s < shapes.sets().size(); ++s) {
        const SetShapes::Set& set = shapes.sets()[s];
        Counts counts;
        for (std::size_t kind = 0; kind < instance.items.size(); ++kind)
            if (const std::int64_t count = shapes.count(set, kind); count > 0)
                counts.emplace_back(static_cast<std::int32_t>(kind), count);
        for (std::size_t sheet = 0; sheet < instance.sheets.size(); ++sheet) {
            const std::int32_t shape = cut(set, sheet);
            if (shape < 0 || !whole(set, sheet)) continue;
            patterns.add(sheet, counts, [&shapes, s, shape] {
                return shapes.block(static_cast<std::int32_t>(s), shape);
            });
        }
        if (patterns.too_many()) return false;
    }
    return true;
}

/// Whether the LP would save by one more copy of some sheet.
bool short_of_sheets(const Instance& instance, const PatternLp& lp) {
    for (std::size_t s = 0; s < instance.sheets.size(); ++s)
        if (std::abs(lp.rent(s)) > nearly) return true;
    return false;
}

/// True when every answer costs more than the limit; otherwise reports what was found.
bool costs_more(PatternCorner& patterns, Cost limit, std::int64_t steps, Cornered& found) {
    const Corner::End end = patterns.corner().run(limit, steps);
    if (end != Corner::End::unfit) found.bound = std::max(found.bound, patterns.corner().bound());
    if (end == Corner::End::found) found.solution = patterns.solution();
    return end == Corner::End::impossible;
}

Cornered corner_of_sets(const Instance& instance, const SetShapes& shapes, const PatternLp& lp,
                        Cost limit, std::int64_t steps, Meter& meter) {
    Cornered found;
    PatternCorner patterns(instance, lp, meter);
    if (!patterns.choose_basis()) return found;
    const bool all = add_whole_sets(instance, shapes, patterns);
    meter.spend(static_cast<std::int64_t>(shapes.sets().size() * instance.sheets.size()
                                          * instance.items.size())
                * 20);
    if (all) costs_more(patterns, limit, steps, found);
    return found;
}

Cornered corner_of_table(const Instance& instance, const Grid& grid, const PatternLp& lp,
                         Cost limit, std::int64_t steps, Meter& meter) {
    Cornered found;
    const auto points = [](const Raster& raster) {
        return static_cast<std::size_t>(raster.size());
    };
    if (points(grid.x) * points(grid.y) > most_cells) return found;
    PatternCorner patterns(instance, lp, meter);
    if (!patterns.choose_basis()) return found;
    Corner& corner = patterns.corner();
    NearBest near(instance, grid, corner.prices(), meter);
    const std::int64_t end = meter.steps() + steps;
    // The closer to the bound, the fewer patterns are close enough.
    Cost further = std::max(lp.step(), corner.bound() / 5000);
    for (Cost cost = std::min(corner.bound() + further, limit);;
         cost = std::min(cost + further, limit)) {
        const auto room = corner.room(cost);
        if (!room) return found;
        std::vector<std::int64_t> least;
        for (const Sheet& sheet : instance.sheets) {
            const auto worth = base::narrow(base::Wide(sheet.cost) * corner.elements() - *room);
            if (!worth) return found;
            least.push_back(*worth);
        }
        if (!near.list(least, end - meter.steps(), most_entries)) return found;
        for (const NearBest::Found& pattern : near.found()) {
            if (patterns.too_many()) return found;
            patterns.add(pattern.sheet, *pattern.counts,
                         [&near, pattern] { return near.block(pattern); });
        }
        if (!costs_more(patterns, cost, end - meter.steps(), found) || cost == limit) return found;
        further *= 3;
    }
}

} // namespace

Cornered corner_search(const Instance& instance, const PatternSource& source, const PatternLp& lp,
                       Cost limit, std::int64_t steps, Meter& meter) {
    if (short_of_sheets(instance, lp)) return {};
    if (source.shapes != nullptr)
        return corner_of_sets(instance, *source.shapes, lp, limit, steps, meter);
    if (source.grid != nullptr)
        return corner_of_table(instance, *source.grid, lp, limit, steps, meter);
    return {};
}

} // namespace barrow::layout
