#pragma once

#include "layout/model/instance.hpp"

#include <compare>
#include <vector>

namespace barrow::layout {

/// Direction in which the parts of a block lie beside each other: parts along x are separated by
/// cuts at fixed x.
enum class Along : std::int8_t { x, y };

inline Along other(Along axis) {
    return axis == Along::x ? Along::y : Along::x;
}

/// A rectangle of items: one item, or two or more blocks side by side (no child has the axis of its
/// parent). Sizes are the least that hold the content.
struct Block {
    Length width = 0;
    Length height = 0;
    std::int32_t item = -1; ///< kind of item of a leaf; -1 for a block with children
    bool turned = false;    ///< the item lies on its side
    Along axis = Along::x;
    std::vector<Block> children;

    bool leaf() const { return item >= 0; }
    std::int64_t area() const { return std::int64_t{width} * height; }
    friend bool operator==(const Block&, const Block&) = default;
};

Block leaf_of(const Instance& instance, std::int32_t item, bool turned);

/// Joins two blocks along the axis; children of blocks with the same axis are merged into the
/// result.
Block joined(Along axis, Block first, Block second);

/// Appends a block to a row along the axis; a row of width 0 is empty.
void put_beside(Along axis, Block& row, Block next);

/// The same content in the measures of another instance that has the same kinds in the same order.
Block rebuilt(const Instance& instance, const Block& block);

/// Order of blocks for readers: larger along the axis first, equal ones together, then by content.
/// A total order: equal only when the blocks are equal.
std::strong_ordering compare(const Block& left, const Block& right, Along axis);

/// Sorts the children of every block in that order.
void arrange(Block& block);

/// Adds how many of each kind of item are in the block.
void count_items(const Block& block, std::vector<std::int64_t>& counts);

/// A block on a kind of sheet, and how many copies of that sheet are cut so.
struct Pattern {
    std::size_t sheet = 0;
    std::int64_t copies = 1;
    Block block;
};

/// Arranges all blocks, merges equal patterns, and sorts by sheet and block.
void merge_equal(std::vector<Pattern>& patterns);

} // namespace barrow::layout
