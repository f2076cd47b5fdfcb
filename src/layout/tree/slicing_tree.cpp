#include "layout/tree/slicing_tree.hpp"

#include <algorithm>

namespace barrow::layout {
namespace {

std::size_t index_of(Along axis) {
    return axis == Along::x ? 0 : 1;
}

} // namespace

std::int32_t SlicingTree::allocate() {
    if (free_ == none) {
        nodes_.emplace_back();
        nodes_.back().alive = true;
        return slots() - 1;
    }
    const std::int32_t index = free_;
    free_ = at(index).next;
    at(index) = Node{};
    at(index).alive = true;
    return index;
}

void SlicingTree::attach(std::int32_t child, std::int32_t parent) {
    at(child).parent = parent;
    if (parent == none) {
        root_ = child;
        return;
    }
    at(child).next = at(parent).first;
    at(parent).first = child;
}

void SlicingTree::detach(std::int32_t child) {
    const std::int32_t parent = at(child).parent;
    if (parent == none) {
        root_ = none;
        return;
    }
    std::int32_t* link = &at(parent).first;
    while (*link != child) link = &at(*link).next;
    *link = at(child).next;
    at(child).next = none;
    at(child).parent = none;
}

void SlicingTree::put_in_place_of(std::int32_t old_child, std::int32_t new_child) {
    const std::int32_t parent = at(old_child).parent;
    at(new_child).parent = parent;
    at(new_child).next = at(old_child).next;
    if (parent == none) {
        root_ = new_child;
    } else {
        std::int32_t* link = &at(parent).first;
        while (*link != old_child) link = &at(*link).next;
        *link = new_child;
    }
    at(old_child).parent = none;
    at(old_child).next = none;
}

std::int32_t SlicingTree::make_leaf(std::int32_t parent, std::int32_t item, bool turned,
                                    Length width, Length height) {
    const std::int32_t index = allocate();
    at(index).size = {width, height};
    at(index).item = item;
    at(index).turned = turned;
    filled_ += std::int64_t{width} * height;
    attach(index, parent);
    return index;
}

void SlicingTree::insert(std::int32_t beside, Along axis, std::int32_t item, bool turned,
                         Length width, Length height) {
    if (root_ == none) {
        make_leaf(none, item, turned, width, height);
        return;
    }
    std::int32_t parent = beside;
    if (node(beside).leaf() || node(beside).axis != axis) {
        const std::int32_t above = node(beside).parent;
        if (above != none && node(above).axis == axis) {
            parent = above;
        } else {
            parent = allocate();
            at(parent).axis = axis;
            put_in_place_of(beside, parent);
            attach(beside, parent);
        }
    }
    make_leaf(parent, item, turned, width, height);
    for (std::int32_t up = parent; up != none; up = node(up).parent) measure(up);
}

void SlicingTree::release(std::int32_t index, std::vector<std::int32_t>& items) {
    Node& dead = at(index);
    if (dead.leaf()) {
        items.push_back(dead.item);
        filled_ -= std::int64_t{dead.size[0]} * dead.size[1];
    }
    for (std::int32_t child = dead.first; child != none;) {
        const std::int32_t next = node(child).next;
        release(child, items);
        child = next;
    }
    at(index).alive = false;
    at(index).next = free_;
    free_ = index;
}

void SlicingTree::remove(std::int32_t index, std::vector<std::int32_t>& items) {
    const std::int32_t parent = node(index).parent;
    detach(index);
    release(index, items);
    if (parent == none) {
        clear();
        return;
    }
    collapse(parent);
}

/// Restores the tree when a node has only one child left: the child takes its place, and its
/// children join the node above when that has the same axis.
void SlicingTree::collapse(std::int32_t index) {
    const std::int32_t only = node(index).first;
    if (only == none || node(only).next != none) return;
    const std::int32_t above = node(index).parent;
    put_in_place_of(index, only);
    at(index).first = none;
    std::vector<std::int32_t> unused;
    release(index, unused);
    if (node(only).leaf() || above == none || node(above).axis != node(only).axis) return;
    std::int32_t child = node(only).first;
    at(only).first = none;
    detach(only);
    release(only, unused);
    while (child != none) {
        const std::int32_t next = node(child).next;
        attach(child, above);
        child = next;
    }
}

void SlicingTree::measure(std::int32_t index) {
    Node& node = at(index);
    const std::size_t along = index_of(node.axis);
    Length sum = 0;
    Length most = 0;
    for (std::int32_t child = node.first; child != none; child = at(child).next) {
        sum += at(child).size[along];
        most = std::max(most, at(child).size[1 - along]);
    }
    node.size[along] = sum;
    node.size[1 - along] = most;
}

void SlicingTree::grant(std::int32_t index) {
    const Node& node = at(index);
    const std::size_t along = index_of(node.axis);
    const Length slack = node.room[along] - node.size[along];
    for (std::int32_t child = node.first; child != none; child = at(child).next) {
        at(child).room[along] = at(child).size[along] + slack;
        at(child).room[1 - along] = node.room[1 - along];
        at(child).above = node.axis;
        if (at(child).first != none) grant(child);
    }
}

void SlicingTree::settle() {
    if (root_ == none) return;
    const auto sizes = [&](const auto& self, std::int32_t index) -> void {
        if (node(index).first == none) return;
        for (std::int32_t child = node(index).first; child != none; child = node(child).next)
            self(self, child);
        measure(index);
    };
    sizes(sizes, root_);
    at(root_).room = limit_;
    grant(root_);
}

void SlicingTree::clear() {
    nodes_.clear();
    root_ = none;
    free_ = none;
    filled_ = 0;
}

void SlicingTree::move_to(Length width, Length height) {
    limit_ = {width, height};
    settle();
}

Block SlicingTree::block() const {
    return block_at(root_);
}

Block SlicingTree::block_at(std::int32_t index) const {
    const Node& from = node(index);
    Block block{from.size[0], from.size[1], from.item, from.turned, from.axis, {}};
    for (std::int32_t child = from.first; child != none; child = node(child).next)
        block.children.push_back(block_at(child));
    return block;
}

void SlicingTree::adopt(const Block& block, std::int32_t parent) {
    if (block.leaf()) {
        make_leaf(parent, block.item, block.turned, block.width, block.height);
        return;
    }
    const std::int32_t index = allocate();
    at(index).axis = block.axis;
    attach(index, parent);
    for (const Block& child : block.children) adopt(child, index);
}

SlicingTree SlicingTree::of(const Block& block, Length width, Length height) {
    SlicingTree tree(width, height);
    tree.adopt(block, none);
    tree.settle();
    return tree;
}

std::vector<std::int32_t> SlicingTree::items() const {
    std::vector<std::int32_t> answer;
    for (const Node& node : nodes_)
        if (node.alive && node.leaf()) answer.push_back(node.item);
    std::sort(answer.begin(), answer.end());
    return answer;
}

} // namespace barrow::layout
