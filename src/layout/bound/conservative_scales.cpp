#include "layout/bound/conservative_scales.hpp"

#include "base/wide.hpp"

#include <algorithm>
#include <array>
#include <set>

namespace barrow::layout {
namespace {

using base::Wide;

constexpr std::int64_t most_parts = 24;
constexpr std::size_t many_kinds = 400; // beyond this, no scales with a threshold
constexpr std::size_t finalists = 8;    // best scales of each axis, combined pairwise

/// One scale applied to all kinds of item along one axis: upright and turned.
struct Column {
    std::vector<std::array<std::int64_t, 2>> values;
    std::int64_t whole = 0;
    Wide best = 0; ///< thousandths of sheets; only for choosing the finalists
};

class ScaleSearch {
public:
    explicit ScaleSearch(const Instance& instance)
        : instance_(instance), sheet_(instance.sheets.front()) {}

    std::int64_t sheets() {
        std::vector<Column> across = columns(true);
        std::vector<Column> up = columns(false);
        // The first two: plain lengths, and those over half a side.
        for (std::size_t simple = 0; simple < 2; ++simple) {
            for (Column& column : across) try_pair(column, up[simple], column);
            for (Column& column : up) try_pair(across[simple], column, column);
        }
        steps_ =
            static_cast<std::int64_t>(instance_.items.size() * (across.size() + up.size())) * 20;
        keep_best(across);
        keep_best(up);
        for (Column& first : across)
            for (Column& second : up) try_pair(first, second, first);
        return most_;
    }

    std::int64_t steps() const { return steps_; }

private:
    Length length(const Item& item, bool across, bool turned) const {
        return across != turned ? item.width : item.height;
    }

    bool fits(const Item& item, bool turned) const {
        if (turned && !item.turns) return false;
        return length(item, true, turned) <= sheet_.width
               && length(item, false, turned) <= sheet_.height;
    }

    /// Thresholds at which a scale changes the measure of some length.
    std::set<std::int64_t> thresholds(bool across, Length side) const {
        std::set<std::int64_t> found;
        if (instance_.items.size() > many_kinds) return found;
        for (const Item& item : instance_.items)
            for (const bool turned : {false, true}) {
                if (!fits(item, turned)) continue;
                const std::int64_t own = length(item, across, turned);
                for (const std::int64_t k : {own, side - own, side - own + 1})
                    if (k >= 1 && 2 * k <= side) found.insert(k);
            }
        return found;
    }

    std::vector<Column> columns(bool across) const {
        const Length side = across ? sheet_.width : sheet_.height;
        std::vector<Scale> scales{{Scale::Kind::plain, 0, side}};
        for (std::int64_t k = 1; k <= most_parts; ++k)
            scales.push_back({Scale::Kind::parts, k, side});
        for (const std::int64_t k : thresholds(across, side)) {
            scales.push_back({Scale::Kind::ends, k, side});
            scales.push_back({Scale::Kind::by_steps, k, side});
        }
        std::vector<Column> all;
        for (const Scale& scale : scales) {
            Column column{{}, scale.whole(), 0};
            for (const Item& item : instance_.items)
                column.values.push_back(
                    {fits(item, false) ? scale.of(length(item, across, false)) : 0,
                     fits(item, true) ? scale.of(length(item, across, true)) : 0});
            all.push_back(std::move(column));
        }
        return all;
    }

    void try_pair(const Column& across, const Column& up, Column& judged) {
        Wide area = 0;
        for (std::size_t i = 0; i < instance_.items.size(); ++i) {
            const Item& item = instance_.items[i];
            const Wide upright = Wide(across.values[i][0]) * up.values[i][0];
            const Wide turned = Wide(across.values[i][1]) * up.values[i][1];
            const Wide least = !fits(item, true)    ? upright
                               : !fits(item, false) ? turned
                                                    : std::min(upright, turned);
            area += least * item.demand;
        }
        const Wide whole = Wide(across.whole) * up.whole;
        most_ = std::max(most_, static_cast<std::int64_t>(base::divide_up(area, whole)));
        judged.best = std::max(judged.best, area * 1000 / whole);
    }

    static void keep_best(std::vector<Column>& columns) {
        std::stable_sort(columns.begin(), columns.end(),
                         [](const Column& a, const Column& b) { return a.best > b.best; });
        if (columns.size() > finalists) columns.resize(finalists);
    }

    const Instance& instance_;
    const Sheet& sheet_;
    std::int64_t most_ = 0;
    std::int64_t steps_ = 0;
};

} // namespace

std::int64_t Scale::of(Length length) const {
    const std::int64_t v = length;
    switch (kind) {
    case Kind::plain: return v;
    case Kind::parts:
        return (k + 1) * v % side == 0 ? v * k : (k + 1) * v / side * std::int64_t{side};
    case Kind::ends: return v > side - k ? side : v < k ? 0 : v;
    case Kind::by_steps:
        if (2 * v > side) return 2 * (side / k - (side - v) / k);
        return 2 * v == side ? side / k : 2 * (v / k);
    }
    return 0;
}

std::int64_t Scale::whole() const {
    switch (kind) {
    case Kind::parts: return k * side;
    case Kind::by_steps: return 2 * (side / k);
    case Kind::plain:
    case Kind::ends: break;
    }
    return side;
}

Cost scaled_area_bound(const Instance& instance, std::int64_t& steps) {
    if (instance.sheets.size() != 1) return 0;
    ScaleSearch search(instance);
    const std::int64_t sheets = search.sheets();
    steps += search.steps();
    return sheets * instance.sheets.front().cost;
}

} // namespace barrow::layout
