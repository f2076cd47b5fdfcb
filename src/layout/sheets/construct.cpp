#include "layout/sheets/construct.hpp"

#include "base/wide.hpp"
#include "layout/bound/area.hpp"
#include "layout/tree/insertion.hpp"

#include <algorithm>
#include <array>
#include <numeric>

namespace barrow::layout {
namespace {

using Counts = std::vector<std::int64_t>;

enum class Order { area, longer_side, height, width, perimeter };

std::int64_t rank(const Item& item, Order order) {
    switch (order) {
    case Order::area: return item.area();
    case Order::longer_side: return std::max(item.width, item.height);
    case Order::height: return item.height;
    case Order::width: return item.width;
    case Order::perimeter: return std::int64_t{item.width} + item.height;
    }
    return 0;
}

std::vector<std::int32_t> sorted(const Instance& instance, Order order) {
    std::vector<std::int32_t> kinds(instance.items.size());
    std::iota(kinds.begin(), kinds.end(), 0);
    std::stable_sort(kinds.begin(), kinds.end(), [&](std::int32_t a, std::int32_t b) {
        const Item& left = instance.items[static_cast<std::size_t>(a)];
        const Item& right = instance.items[static_cast<std::size_t>(b)];
        if (rank(left, order) != rank(right, order)) return rank(left, order) > rank(right, order);
        return left.area() > right.area();
    });
    return kinds;
}

class Builder {
public:
    Builder(const Instance& instance, Order order, Fit fit, Meter& meter)
        : instance_(instance), meter_(meter), kinds_(sorted(instance, order)), fit_(fit) {
        for (const Item& item : instance.items) left_.push_back(item.demand);
        for (const Sheet& sheet : instance.sheets) copies_.push_back(sheet.copies);
        fillings_.resize(instance.sheets.size());
    }

    Solution run() {
        Solution solution;
        while (std::any_of(left_.begin(), left_.end(), [](auto n) { return n > 0; })) {
            Pattern pattern;
            if (!next_pattern(pattern)) break;
            take(pattern);
            solution.cost += pattern.copies * instance_.sheets[pattern.sheet].cost;
            solution.patterns.push_back(std::move(pattern));
        }
        solution.unplaced = left_;
        return solution;
    }

private:
    /// A sheet filled from what was left at the time.
    struct Filling {
        std::int64_t area = 0;
        std::vector<std::pair<std::size_t, std::int64_t>> counts; ///< kind of item, how many
        SlicingTree tree;
    };

    void fill(const Sheet& sheet, Filling& filling) {
        filling.tree = SlicingTree(sheet.width, sheet.height);
        filling.counts.clear();
        std::int64_t steps = static_cast<std::int64_t>(kinds_.size());
        for (const std::int32_t kind : kinds_) {
            const auto index = static_cast<std::size_t>(kind);
            const Item& item = instance_.items[index];
            if (item.area() > sheet.area() - filling.tree.filled()) continue;
            std::int64_t count = 0;
            for (; count < left_[index]; ++count) {
                steps += steps_of_place + std::int64_t{steps_of_node} * filling.tree.slots();
                const Spot spot = best_spot(filling.tree, item, fit_);
                if (!spot.found()) break;
                insert_at(filling.tree, spot, item, kind);
            }
            if (count > 0) filling.counts.emplace_back(index, count);
        }
        filling.area = filling.tree.filled();
        meter_.spend(steps);
    }

    /// True when filling the sheet again would give the same: enough is left of every kind on it.
    /// (Kinds it used up are all still left.)
    bool holds_still(const Filling& filling) const {
        return std::all_of(filling.counts.begin(), filling.counts.end(),
                           [&](const auto& count) { return count.second <= left_[count.first]; });
    }

    bool next_pattern(Pattern& best) {
        std::int64_t best_area = 0;
        for (std::size_t s = 0; s < instance_.sheets.size(); ++s) {
            const Sheet& sheet = instance_.sheets[s];
            if (copies_[s] == 0) continue;
            Filling& filling = fillings_[s];
            if (filling.counts.empty() || !holds_still(filling)) fill(sheet, filling);
            if (filling.tree.empty()) continue;
            const base::Wide ours = base::Wide(sheet.cost) * best_area;
            const base::Wide theirs = base::Wide(instance_.sheets[best.sheet].cost) * filling.area;
            if (best_area > 0 && ours >= theirs && (ours != theirs || filling.area <= best_area))
                continue;
            best_area = filling.area;
            best.sheet = s;
        }
        if (best_area > 0) best.block = fillings_[best.sheet].tree.block();
        return best_area > 0;
    }

    void take(Pattern& pattern) {
        Counts counts(left_.size(), 0);
        meter_.spend(static_cast<std::int64_t>(left_.size() + fillings_.size()) * 4);
        count_items(pattern.block, counts);
        pattern.copies = copies_[pattern.sheet];
        for (std::size_t i = 0; i < counts.size(); ++i)
            if (counts[i] > 0) pattern.copies = std::min(pattern.copies, left_[i] / counts[i]);
        for (std::size_t i = 0; i < counts.size(); ++i) left_[i] -= counts[i] * pattern.copies;
        copies_[pattern.sheet] -= pattern.copies;
    }

    static constexpr int steps_of_place = 50;
    static constexpr int steps_of_node = 10;

    const Instance& instance_;
    Meter& meter_;
    std::vector<std::int32_t> kinds_;
    Fit fit_;
    Counts left_;
    Counts copies_;
    std::vector<Filling> fillings_; ///< of each sheet
};

} // namespace

Solution construct(const Instance& instance, Meter& meter) {
    Solution best;
    bool first = true;
    const Cost least = area_bound(instance);
    const std::int64_t end = meter.steps() + meter.left() / 8;
    for (const Order order :
         {Order::area, Order::longer_side, Order::height, Order::width, Order::perimeter}) {
        for (const Fit fit : {Fit::area, Fit::short_side, Fit::waste}) {
            if (!first && (meter.over() || meter.steps() >= end)) return best;
            Solution solution = Builder(instance, order, fit, meter).run();
            if (first || better(instance, solution, best)) best = std::move(solution);
            first = false;
            if (best.complete() && best.cost <= least) return best;
        }
    }
    return best;
}

} // namespace barrow::layout
