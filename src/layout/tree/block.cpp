#include "layout/tree/block.hpp"

#include <algorithm>
#include <utility>

namespace barrow::layout {

Block leaf_of(const Instance& instance, std::int32_t item, bool turned) {
    const Item& kind = instance.items[static_cast<std::size_t>(item)];
    Block block;
    block.width = turned ? kind.height : kind.width;
    block.height = turned ? kind.width : kind.height;
    block.item = item;
    block.turned = turned;
    return block;
}

Block joined(Along axis, Block first, Block second) {
    Block block;
    block.axis = axis;
    const bool x = axis == Along::x;
    block.width = x ? first.width + second.width : std::max(first.width, second.width);
    block.height = x ? std::max(first.height, second.height) : first.height + second.height;
    for (Block* part : {&first, &second}) {
        if (part->leaf() || part->axis != axis) {
            block.children.push_back(std::move(*part));
        } else {
            for (Block& child : part->children) block.children.push_back(std::move(child));
        }
    }
    return block;
}

void put_beside(Along axis, Block& row, Block next) {
    row = row.width == 0 ? std::move(next) : joined(axis, std::move(row), std::move(next));
}

Block rebuilt(const Instance& instance, const Block& block) {
    if (block.leaf()) return leaf_of(instance, block.item, block.turned);
    Block answer = rebuilt(instance, block.children.front());
    for (std::size_t i = 1; i < block.children.size(); ++i)
        answer = joined(block.axis, std::move(answer), rebuilt(instance, block.children[i]));
    return answer;
}

std::strong_ordering compare(const Block& left, const Block& right, Along axis) {
    const bool x = axis == Along::x;
    const auto backwards = [](auto a, auto b) { return b <=> a; }; // larger first
    auto order = x ? backwards(left.width, right.width) : backwards(left.height, right.height);
    if (std::is_neq(order)) return order;
    order = x ? backwards(left.height, right.height) : backwards(left.width, right.width);
    if (std::is_neq(order)) return order;
    if (order = left.item <=> right.item; std::is_neq(order)) return order;
    if (order = left.turned <=> right.turned; std::is_neq(order)) return order;
    if (left.leaf()) return std::strong_ordering::equal;
    if (order = left.axis <=> right.axis; std::is_neq(order)) return order;
    if (order = left.children.size() <=> right.children.size(); std::is_neq(order)) return order;
    for (std::size_t i = 0; i < left.children.size(); ++i) {
        order = compare(left.children[i], right.children[i], left.axis);
        if (std::is_neq(order)) return order;
    }
    return std::strong_ordering::equal;
}

void arrange(Block& block) {
    for (Block& child : block.children) arrange(child);
    std::sort(block.children.begin(), block.children.end(), [&](const Block& a, const Block& b) {
        return std::is_lt(compare(a, b, block.axis));
    });
}

void count_items(const Block& block, std::vector<std::int64_t>& counts) {
    if (block.leaf()) ++counts[static_cast<std::size_t>(block.item)];
    for (const Block& child : block.children) count_items(child, counts);
}

void merge_equal(std::vector<Pattern>& patterns) {
    for (Pattern& pattern : patterns) arrange(pattern.block);
    const auto order = [](const Pattern& a, const Pattern& b) {
        if (a.sheet != b.sheet) return a.sheet < b.sheet;
        return std::is_lt(compare(a.block, b.block, Along::x));
    };
    std::sort(patterns.begin(), patterns.end(), order);
    std::vector<Pattern> merged;
    for (Pattern& pattern : patterns) {
        if (!merged.empty() && merged.back().sheet == pattern.sheet
            && merged.back().block == pattern.block)
            merged.back().copies += pattern.copies;
        else
            merged.push_back(std::move(pattern));
    }
    patterns = std::move(merged);
}

} // namespace barrow::layout
