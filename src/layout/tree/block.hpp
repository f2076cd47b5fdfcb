#pragma once

#include "layout/model/instance.hpp"

#include <compare>
#include <vector>

namespace barrow::layout {

/// Direction in which the parts of a block lie beside each other; the cuts between them are at
/// right angles to it: parts along x are parted by cuts at fixed x.
enum class Along : std::int8_t { x, y };

inline Along other(Along axis) {
    return axis == Along::x ? Along::y : Along::x;
}

/// A rectangle full of items, found by any of the searches: one item, or two or more blocks side
/// by side (no child has the axis of its parent). Sizes are the least that hold the content.
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

/// Both beside each other along the axis; children of the same axis are taken over as they are.
Block joined(Along axis, Block first, Block second);

/// Puts one more block at the end of a row along the axis; a row without width is empty.
void put_beside(Along axis, Block& row, Block next);

/// The same content in the measures of another instance with the same kinds in the same order.
Block rebuilt(const Instance& instance, const Block& block);

/// Order of blocks for people: larger along the axis first, equal ones together, the deeper
/// content deciding last. A total order: equal only when the blocks are.
std::strong_ordering compare(const Block& left, const Block& right, Along axis);

/// Puts the children of every block in that order.
void arrange(Block& block);

/// Adds how many of each kind of item are in the block.
void count_items(const Block& block, std::vector<std::int64_t>& counts);

/// A block on a kind of sheet, cut from so many copies of it.
struct Pattern {
    std::size_t sheet = 0;
    std::int64_t copies = 1;
    Block block;
};

/// Arranges all blocks, puts equal patterns together, and sorts by sheet and block.
void merge_equal(std::vector<Pattern>& patterns);

} // namespace barrow::layout
