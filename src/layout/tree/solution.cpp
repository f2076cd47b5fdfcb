#include "layout/tree/solution.hpp"

#include "base/wide.hpp"
#include "layout/tree/slicing_tree.hpp"

#include <algorithm>

namespace barrow::layout {
namespace {

/// Removes surplus items from one copy of the pattern; false when nothing is left.
bool relieve(const Instance& instance, std::vector<std::int64_t>& surplus, Pattern& pattern) {
    const Sheet& sheet = instance.sheets[pattern.sheet];
    SlicingTree tree = SlicingTree::of(pattern.block, sheet.width, sheet.height);
    std::vector<std::int32_t> removed;
    for (std::int32_t index = 0; index < tree.slots() && !tree.empty(); ++index) {
        const SlicingTree::Node& node = tree.node(index);
        if (!node.alive || !node.leaf()) continue;
        std::int64_t& over = surplus[static_cast<std::size_t>(node.item)];
        if (over == 0) continue;
        --over;
        tree.remove(index, removed);
    }
    if (tree.empty()) return false;
    tree.settle();
    pattern.block = tree.block();
    return true;
}

} // namespace

bool Solution::complete() const {
    return std::all_of(unplaced.begin(), unplaced.end(), [](auto n) { return n == 0; });
}

std::int64_t Solution::unplaced_area(const Instance& instance) const {
    base::Wide area = 0;
    for (std::size_t i = 0; i < unplaced.size(); ++i)
        area += base::Wide(unplaced[i]) * instance.items[i].area();
    return base::narrow(area).value_or(INT64_MAX);
}

bool better(const Instance& instance, const Solution& left, const Solution& right) {
    const std::int64_t left_over = left.unplaced_area(instance);
    const std::int64_t right_over = right.unplaced_area(instance);
    return left_over != right_over ? left_over < right_over : left.cost < right.cost;
}

void take_out_surplus(const Instance& instance, Solution& solution) {
    std::vector<std::int64_t> surplus(instance.items.size(), 0);
    for (std::size_t i = 0; i < surplus.size(); ++i) surplus[i] = -instance.items[i].demand;
    for (const Pattern& pattern : solution.patterns) {
        std::vector<std::int64_t> counts(surplus.size(), 0);
        count_items(pattern.block, counts);
        for (std::size_t i = 0; i < counts.size(); ++i) surplus[i] += counts[i] * pattern.copies;
    }
    for (std::int64_t& over : surplus) over = std::max<std::int64_t>(over, 0);
    std::vector<Pattern> kept;
    for (auto pattern = solution.patterns.rbegin(); pattern != solution.patterns.rend();
         ++pattern) {
        std::vector<std::int64_t> counts(surplus.size(), 0);
        count_items(pattern->block, counts);
        const auto touched = [&] {
            for (std::size_t i = 0; i < counts.size(); ++i)
                if (counts[i] > 0 && surplus[i] > 0) return true;
            return false;
        };
        while (pattern->copies > 0 && touched()) {
            Pattern one{pattern->sheet, 1, pattern->block};
            --pattern->copies;
            if (relieve(instance, surplus, one))
                kept.push_back(std::move(one));
            else
                solution.cost -= instance.sheets[pattern->sheet].cost;
        }
        if (pattern->copies > 0) kept.push_back(std::move(*pattern));
    }
    solution.patterns = std::move(kept);
}

} // namespace barrow::layout
