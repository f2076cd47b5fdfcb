#include "layout/tree/insertion.hpp"

#include <algorithm>
#include <array>

namespace barrow::layout {
namespace {

/// Score of an item of `size` put beside a node, the free space there being `free`.
template <Fit fit>
std::int64_t score(const SlicingTree::Node& node, std::size_t along, Length free_along,
                   Length size_along, Length size_across) {
    const Length free_across = node.room[1 - along];
    const std::int64_t item_area = std::int64_t{size_along} * size_across;
    if constexpr (fit == Fit::area) {
        return std::int64_t{free_along} * free_across - item_area;
    } else if constexpr (fit == Fit::short_side) {
        return std::min(free_along - size_along, free_across - size_across);
    } else {
        const std::int64_t depth = std::max(node.size[1 - along], size_across);
        const std::int64_t before = std::int64_t{node.size[along]} * node.size[1 - along];
        return (std::int64_t{node.size[along]} + size_along) * depth - before - item_area;
    }
}

/// One orientation of an item, and the best place found for it.
struct Lying {
    std::array<Length, 2> sides{};
    bool turned = false;
    Spot best;

    template <Fit fit>
    void try_beside(const SlicingTree::Node& node, std::int32_t index, Along axis) {
        const std::size_t along = axis == Along::x ? 0 : 1;
        const Length free_along = node.room[along] - node.size[along];
        if (sides[along] > free_along || sides[1 - along] > node.room[1 - along]) return;
        const std::int64_t points =
            score<fit>(node, along, free_along, sides[along], sides[1 - along]);
        if (points < best.score) best = {points, index, axis, turned};
    }
};

Spot first_spot(const SlicingTree& tree, const Item& item) {
    const auto holds = [&](Length width, Length height) {
        return width <= tree.limit(Along::x) && height <= tree.limit(Along::y);
    };
    if (holds(item.width, item.height)) return {0, SlicingTree::none, Along::x, false};
    if (item.turns && holds(item.height, item.width)) return {0, SlicingTree::none, Along::x, true};
    return {};
}

template <Fit fit>
Spot best_beside(const SlicingTree& tree, const Item& item) {
    Lying upright{{item.width, item.height}, false, {}};
    Lying turned{{item.height, item.width}, true, {}};
    const auto try_beside = [&](std::int32_t index, Along axis) {
        const SlicingTree::Node& node = tree.node(index);
        upright.try_beside<fit>(node, index, axis);
        if (item.turns) turned.try_beside<fit>(node, index, axis);
    };
    const std::int32_t slots = tree.slots();
    for (std::int32_t index = 0; index < slots; ++index) {
        const SlicingTree::Node& node = tree.node(index);
        if (!node.alive) continue;
        // A place beside a child along its parent's axis is the same as beside the parent.
        if (index == tree.root()) {
            try_beside(index, Along::x);
            try_beside(index, Along::y);
        } else {
            try_beside(index, other(node.above));
        }
    }
    return turned.best.score < upright.best.score ? turned.best : upright.best;
}

} // namespace

Spot best_spot(const SlicingTree& tree, const Item& item, Fit fit) {
    if (tree.empty()) return first_spot(tree, item);
    switch (fit) {
    case Fit::area: return best_beside<Fit::area>(tree, item);
    case Fit::short_side: return best_beside<Fit::short_side>(tree, item);
    case Fit::waste: return best_beside<Fit::waste>(tree, item);
    }
    return {};
}

void insert_at(SlicingTree& tree, const Spot& spot, const Item& item, std::int32_t kind) {
    tree.insert(spot.node, spot.axis, kind, spot.turned, spot.turned ? item.height : item.width,
                spot.turned ? item.width : item.height);
    tree.settle();
}

} // namespace barrow::layout
