#include "layout/search/insertion.hpp"

#include <algorithm>

namespace barrow::layout {
namespace {

/// Score of an item of `size` put beside a node, the free space there being `free`.
std::int64_t score(Fit fit, const SlicingTree::Node& node, std::size_t along, Length free_along,
                   Length size_along, Length size_across) {
    const Length free_across = node.room[1 - along];
    const std::int64_t item_area = std::int64_t{size_along} * size_across;
    switch (fit) {
    case Fit::area: return std::int64_t{free_along} * free_across - item_area;
    case Fit::short_side: return std::min(free_along - size_along, free_across - size_across);
    case Fit::waste: {
        const std::int64_t depth = std::max(node.size[1 - along], size_across);
        const std::int64_t before = std::int64_t{node.size[along]} * node.size[1 - along];
        return (std::int64_t{node.size[along]} + size_along) * depth - before - item_area;
    }
    }
    return INT64_MAX;
}

void try_node(const SlicingTree& tree, std::int32_t index, Length width, Length height, bool turned,
              Fit fit, Spot& best) {
    const SlicingTree::Node& node = tree.node(index);
    for (const Along axis : {Along::x, Along::y}) {
        // Beside a child along its parent's axis is the same place as beside the parent.
        if (node.parent != SlicingTree::none && tree.node(node.parent).axis == axis) continue;
        const std::size_t along = axis == Along::x ? 0 : 1;
        const Length size_along = along == 0 ? width : height;
        const Length size_across = along == 0 ? height : width;
        const Length free_along = node.room[along] - node.size[along];
        if (size_along > free_along || size_across > node.room[1 - along]) continue;
        const std::int64_t points = score(fit, node, along, free_along, size_along, size_across);
        if (points < best.score) best = {points, index, axis, turned};
    }
}

void try_position(const SlicingTree& tree, Length width, Length height, bool turned, Fit fit,
                  Spot& best) {
    if (tree.empty()) {
        if (width <= tree.limit(Along::x) && height <= tree.limit(Along::y) && !best.found())
            best = {0, SlicingTree::none, Along::x, turned};
        return;
    }
    for (std::int32_t index = 0; index < tree.slots(); ++index)
        if (tree.node(index).alive) try_node(tree, index, width, height, turned, fit, best);
}

} // namespace

Spot best_spot(const SlicingTree& tree, const Item& item, Fit fit) {
    Spot best;
    try_position(tree, item.width, item.height, false, fit, best);
    if (item.turns) try_position(tree, item.height, item.width, true, fit, best);
    return best;
}

void insert_at(SlicingTree& tree, const Spot& spot, const Item& item, std::int32_t kind) {
    tree.insert(spot.node, spot.axis, kind, spot.turned, spot.turned ? item.height : item.width,
                spot.turned ? item.width : item.height);
    tree.settle();
}

} // namespace barrow::layout
