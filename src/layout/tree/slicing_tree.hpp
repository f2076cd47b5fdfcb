#pragma once

#include "layout/tree/block.hpp"

#include <array>
#include <vector>

namespace barrow::layout {

/// How one sheet is cut, as a tree of rectangles without coordinates. A leaf is one item; a node is
/// two or more children side by side along its axis, and no child node has the axis of its parent.
/// Free space is not stored: every node knows the least size that holds its content (`size`) and
/// the size it could grow to while the rest stays on the sheet (`room`). Children have no order, so
/// waste never lies between them. (Slicing tree; inserting an item beside any node is from Fleszar,
/// Computers & OR 40 (2013) 463-474.)
class SlicingTree {
public:
    static constexpr std::int32_t none = -1;

    struct Node {
        std::array<Length, 2> size{}; ///< along x, along y
        std::array<Length, 2> room{};
        std::int32_t parent = none;
        std::int32_t first = none; ///< first child; none for a leaf
        std::int32_t next = none;  ///< next child of the same parent
        std::int32_t item = none;  ///< kind of item of a leaf
        Along axis = Along::x;     ///< of a node with children
        Along above = Along::x;    ///< the parent's; once settled, and not for the root
        bool turned = false;       ///< the item lies on its side
        bool alive = false;

        bool leaf() const { return item != none; }
    };

    SlicingTree() = default;
    SlicingTree(Length width, Length height) : limit_{width, height} {}

    bool empty() const { return root_ == none; }
    std::int32_t root() const { return root_; }
    const Node& node(std::int32_t index) const { return nodes_[static_cast<std::size_t>(index)]; }
    /// Number of slots, unused ones included: nodes have indices from 0 to slots() - 1.
    std::int32_t slots() const { return static_cast<std::int32_t>(nodes_.size()); }
    Length limit(Along axis) const { return limit_[axis == Along::x ? 0 : 1]; }

    /// Puts an item into an empty tree, or beside node `at` along the axis. Requires that it fits.
    /// Rooms are out of date until settle().
    void insert(std::int32_t at, Along axis, std::int32_t item, bool turned, Length width,
                Length height);

    /// Removes a node with everything below it and appends the items to the list. settle() must
    /// follow.
    void remove(std::int32_t at, std::vector<std::int32_t>& items);

    /// Recomputes sizes and rooms.
    void settle();

    void clear();

    /// The same content on a sheet of another size, which must hold it; settled.
    void move_to(Length width, Length height);

    /// Area of the items in it.
    std::int64_t filled() const { return filled_; }

    /// Items of all leaves, in a fixed order.
    std::vector<std::int32_t> items() const;

    /// The content as a block; requires a tree that is not empty.
    Block block() const;

    /// A settled tree with the content of the block.
    static SlicingTree of(const Block& block, Length width, Length height);

private:
    std::int32_t make_leaf(std::int32_t parent, std::int32_t item, bool turned, Length width,
                           Length height);
    void adopt(const Block& block, std::int32_t parent);
    Block block_at(std::int32_t index) const;
    std::int32_t allocate();
    void release(std::int32_t index, std::vector<std::int32_t>& items);
    void attach(std::int32_t child, std::int32_t parent);
    void detach(std::int32_t child);
    void put_in_place_of(std::int32_t old_child, std::int32_t new_child);
    void collapse(std::int32_t index);
    void measure(std::int32_t index);
    void grant(std::int32_t index);
    Node& at(std::int32_t index) { return nodes_[static_cast<std::size_t>(index)]; }

    std::array<Length, 2> limit_{};
    std::int32_t root_ = none;
    std::int32_t free_ = none; ///< list of unused slots, linked by `next`
    std::int64_t filled_ = 0;
    std::vector<Node> nodes_;
};

} // namespace barrow::layout
