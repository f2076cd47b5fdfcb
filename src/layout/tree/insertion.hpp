#pragma once

#include "layout/tree/slicing_tree.hpp"

#include <cstdint>

namespace barrow::layout {

/// How places for an item are scored; the lowest score is best.
enum class Fit {
    area,       ///< free area around it
    short_side, ///< free length left along the tighter side
    waste,      ///< growth of the node's content beyond the area of the item
};

/// A place for an item: beside a node of a tree.
struct Spot {
    std::int64_t score = INT64_MAX; ///< INT64_MAX: there is none
    std::int32_t node = SlicingTree::none;
    Along axis = Along::x;
    bool turned = false;

    bool found() const { return score != INT64_MAX; }
};

/// The best place for an item of this kind in a settled tree; the first of equals.
Spot best_spot(const SlicingTree& tree, const Item& item, Fit fit);

/// Puts the item there and settles the tree.
void insert_at(SlicingTree& tree, const Spot& spot, const Item& item, std::int32_t kind);

} // namespace barrow::layout
