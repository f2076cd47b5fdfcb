#include "layout/sheets/pattern_pool.hpp"

#include "layout/bound/stock_sums.hpp"
#include "layout/effort/random.hpp"

#include <utility>

namespace barrow::layout {
namespace {

using base::Wide;

// Found by trial on the published instances with several kinds of sheet.
constexpr std::size_t most_entries = 30'000;
constexpr Wide dearer = 1100; // per mille of the average cost of sheets

} // namespace

PatternPool::PatternPool(const Instance& instance)
    : instance_(instance), area_wanted_(area_wanted(instance)) {}

std::int64_t PatternPool::add(std::size_t sheet, const SlicingTree& tree, Cost cost) {
    const Wide ours = Wide(instance_.sheets[sheet].cost) * area_wanted_ * 1000;
    if (tree.empty() || ours > Wide(tree.filled()) * cost * dearer) return 5;
    return keep(sheet, tree);
}

std::int64_t PatternPool::keep(std::size_t sheet, const SlicingTree& tree) {
    if (entries_.size() >= most_entries) return 1;
    std::uint64_t hash = spread(sheet + 1);
    for (std::int32_t n = 0; n < tree.slots(); ++n)
        if (tree.node(n).alive && tree.node(n).leaf())
            hash +=
                spread((std::uint64_t{1} << 32) + static_cast<std::uint64_t>(tree.node(n).item));
    if (!known_.insert(hash).second) return std::int64_t{5} * tree.slots();
    Entry entry{sheet, {}, tree.block()};
    for (const std::int32_t item : tree.items()) {
        const auto kind = static_cast<std::size_t>(item);
        if (entry.counts.empty() || entry.counts.back().first != kind)
            entry.counts.emplace_back(kind, 0);
        ++entry.counts.back().second;
    }
    entries_.push_back(std::move(entry));
    return std::int64_t{50} * tree.slots();
}

void PatternPool::keep_only(const std::vector<std::size_t>& entries) {
    std::vector<Entry> kept;
    kept.reserve(entries.size());
    for (const std::size_t index : entries) kept.push_back(std::move(entries_[index]));
    entries_ = std::move(kept);
}

void PatternPool::add(std::size_t sheet, const Block& block) {
    const Sheet& on = instance_.sheets[sheet];
    keep(sheet, SlicingTree::of(block, on.width, on.height));
}

void PatternPool::add(const Solution& solution) {
    for (const Pattern& pattern : solution.patterns) add(pattern.sheet, pattern.block);
}

} // namespace barrow::layout
