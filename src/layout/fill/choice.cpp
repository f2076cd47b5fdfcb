#include "layout/fill/choice.hpp"

#include "base/wide.hpp"
#include "layout/tree/insertion.hpp"

#include <algorithm>
#include <numeric>

namespace barrow::layout {
namespace {

using Counts = std::vector<std::int64_t>;

/// Removes leaves until no kind is there more often than allowed.
void take_out_excess(const Instance& instance, SlicingTree& tree, Counts& counts) {
    std::vector<std::int32_t> removed;
    for (std::int32_t index = 0; index < tree.slots(); ++index) {
        const SlicingTree::Node& node = tree.node(index);
        if (!node.alive || !node.leaf()) continue;
        const auto kind = static_cast<std::size_t>(node.item);
        if (counts[kind] <= instance.items[kind].demand) continue;
        --counts[kind];
        tree.remove(index, removed);
        if (tree.empty()) return;
    }
    tree.settle();
}

} // namespace

Choice::Choice(const Instance& instance, Meter& meter)
    : instance_(instance), meter_(meter), by_value_(instance.items.size()) {
    std::iota(by_value_.begin(), by_value_.end(), 0);
    std::stable_sort(by_value_.begin(), by_value_.end(), [&](std::int32_t a, std::int32_t b) {
        const Item& left = instance.items[static_cast<std::size_t>(a)];
        const Item& right = instance.items[static_cast<std::size_t>(b)];
        return base::Wide(left.value) * right.area() > base::Wide(right.value) * left.area();
    });
}

Cost Choice::value_of(const Block& block) const {
    Counts counts(instance_.items.size(), 0);
    count_items(block, counts);
    Cost value = 0;
    for (std::size_t i = 0; i < counts.size(); ++i)
        value += std::min(counts[i], instance_.items[i].demand) * instance_.items[i].value;
    return value;
}

bool Choice::offer(const Block& block) {
    const Sheet& sheet = instance_.sheets.front();
    Counts counts(instance_.items.size(), 0);
    count_items(block, counts);
    SlicingTree tree = SlicingTree::of(block, sheet.width, sheet.height);
    take_out_excess(instance_, tree, counts);
    Cost value = 0;
    for (std::size_t i = 0; i < counts.size(); ++i) value += counts[i] * instance_.items[i].value;
    for (const std::int32_t kind : by_value_) {
        const auto index = static_cast<std::size_t>(kind);
        const Item& item = instance_.items[index];
        while (counts[index] < item.demand) {
            const Spot spot = best_spot(tree, item, Fit::area);
            meter_.spend(std::int64_t{10} * tree.slots() + 50);
            if (!spot.found()) break;
            insert_at(tree, spot, item, kind);
            ++counts[index];
            value += item.value;
        }
    }
    if (value <= value_ || tree.empty()) return false;
    value_ = value;
    block_ = tree.block();
    return true;
}

} // namespace barrow::layout
