#include "layout/sets/tight_blocks.hpp"

#include "base/wide.hpp"

#include <algorithm>

namespace barrow::layout {
namespace {

/// What a block may lose inside, per ten thousand of its area, in one try after another.
constexpr std::array<std::int64_t, 6> losses = {0, 20, 60, 120, 250, 500};

} // namespace

TightBlocks::TightBlocks(const Instance& instance, const StockSums& sums, Meter& meter)
    : instance_(instance), sums_(sums), meter_(meter), fields_(instance) {
    if (!fields_.possible()) return;
    std::vector<std::int64_t> counts;
    for (const Item& item : instance.items) {
        counts.push_back(item.demand);
        wanted_ += item.demand * item.area();
    }
    all_ = fields_.packed(counts);
    for (const Sheet& sheet : instance.sheets) largest_ = std::max(largest_, sheet.area());
}

bool TightBlocks::held(const std::array<Length, 2>& size) const {
    return std::any_of(instance_.sheets.begin(), instance_.sheets.end(), [&](const Sheet& sheet) {
        return size[0] <= sheet.width && size[1] <= sheet.height;
    });
}

void TightBlocks::keep(const Joined& block) {
    const std::uint64_t sides =
        static_cast<std::uint64_t>(block.size[0]) << 32 | static_cast<std::uint32_t>(block.size[1]);
    if (known_.insert(block.counts.hash(sides)).second) blocks_.push_back(block);
}

void TightBlocks::begin() {
    blocks_.clear();
    known_.clear();
    for (auto& sides : by_side_) sides.clear();
    std::vector<std::int64_t> counts(instance_.items.size(), 0);
    for (std::size_t i = 0; i < instance_.items.size(); ++i) {
        const Item& item = instance_.items[i];
        counts[i] = 1;
        Joined one;
        one.counts = fields_.packed(counts);
        counts[i] = 0;
        one.area = item.area();
        one.item = static_cast<std::int32_t>(i);
        one.size = {item.width, item.height};
        if (held(one.size)) keep(one);
        if (!item.turns) continue;
        one.turned = true;
        one.size = {item.height, item.width};
        if (held(one.size)) keep(one);
    }
}

/// Joins the block with all others whose sides across are close; false when the steps are spent.
bool TightBlocks::join_all(std::int32_t index, std::size_t across, std::int64_t loss) {
    const Length side = blocks_[static_cast<std::size_t>(index)].size[across];
    const auto& others = by_side_[across];
    // However long the blocks, more than this apart would lose too much of the largest sheet.
    const auto apart = [&](std::int32_t other) {
        const Joined& block = blocks_[static_cast<std::size_t>(other)];
        return base::Wide(std::abs(block.size[across] - side)) * 10'000
               > base::Wide(loss) * std::max(block.size[across], side) * 20;
    };
    std::int64_t looked = 0;
    const auto from = others.lower_bound(side);
    for (auto at = from; at != others.end() && !apart(at->second); ++at, ++looked)
        join(index, at->second, across, loss);
    for (auto at = from; at != others.begin() && !apart(std::prev(at)->second); --at, ++looked)
        join(index, std::prev(at)->second, across, loss);
    meter_.spend(looked * 15 + 200);
    return meter_.steps() < end_ && !meter_.over();
}

void TightBlocks::join(std::int32_t first, std::int32_t second, std::size_t across,
                       std::int64_t loss) {
    const Joined& one = blocks_[static_cast<std::size_t>(first)];
    const Joined& two = blocks_[static_cast<std::size_t>(second)];
    if (!fields_.within(one.counts, all_ - two.counts)) return;
    Joined both;
    both.size[across] = std::max(one.size[across], two.size[across]);
    both.size[1 - across] = one.size[1 - across] + two.size[1 - across];
    both.area = one.area + two.area;
    if (base::Wide(both.box() - both.area) * 10'000 > base::Wide(loss) * both.box()) return;
    if (!held(both.size)) return;
    both.counts = one.counts + two.counts;
    both.first = first;
    both.second = second;
    both.axis = across == 1 ? Along::x : Along::y;
    meter_.spend(100);
    keep(both);
}

/// All blocks that lose no more inside; false when there were too many of them.
bool TightBlocks::grow(std::int64_t loss, std::size_t most_blocks) {
    for (std::size_t i = 0; i < blocks_.size(); ++i) {
        const auto index = static_cast<std::int32_t>(i);
        for (const std::size_t across : {std::size_t{0}, std::size_t{1}}) {
            by_side_[across].emplace(blocks_[i].size[across], index);
            if (!join_all(index, across, loss) || blocks_.size() > most_blocks) return false;
        }
    }
    return true;
}

/// Blocks that leave no more of a sheet than all sheets together may lose.
void TightBlocks::list_full(Cost limit) {
    full_.assign(instance_.items.size(), {});
    const base::Wide spare = sums_.most_area(limit) - wanted_;
    meter_.spend(static_cast<std::int64_t>(blocks_.size() * instance_.sheets.size()) * 5);
    for (std::size_t b = 0; b < blocks_.size(); ++b) {
        const Joined& block = blocks_[b];
        const bool full =
            std::any_of(instance_.sheets.begin(), instance_.sheets.end(), [&](const Sheet& sheet) {
                return sheet.area() - block.area <= spare && block.size[0] <= sheet.width
                       && block.size[1] <= sheet.height;
            });
        if (full) full_[fields_.first_kind(block.counts)].push_back(static_cast<std::int32_t>(b));
    }
}

bool TightBlocks::cover(const PackedCounts& left, std::int64_t area, Cost budget) {
    if (left.none()) return true;
    if (area > sums_.most_area(budget) || meter_.steps() >= end_ || meter_.over()) return false;
    const std::uint64_t state = left.hash(static_cast<std::uint64_t>(budget));
    if (failed_.count(state) > 0) return false;
    const std::vector<std::int32_t>& blocks = full_[fields_.first_kind(left)];
    meter_.spend(static_cast<std::int64_t>(blocks.size()) * 5 + 200);
    for (const std::int32_t index : blocks) {
        const Joined& block = blocks_[static_cast<std::size_t>(index)];
        if (!fields_.within(block.counts, left)) continue;
        for (std::size_t s = 0; s < instance_.sheets.size(); ++s) {
            const Sheet& sheet = instance_.sheets[s];
            if (copies_[s] == 0 || sheet.cost > budget || block.size[0] > sheet.width
                || block.size[1] > sheet.height)
                continue;
            --copies_[s];
            uses_.push_back({s, index});
            if (cover(left - block.counts, area - block.area, budget - sheet.cost)) return true;
            uses_.pop_back();
            ++copies_[s];
        }
    }
    // Which sheets were used is not part of the state: an answer may be overlooked, none is wrong.
    failed_.insert(state);
    return false;
}

Block TightBlocks::block(std::int32_t index) const {
    const Joined& from = blocks_[static_cast<std::size_t>(index)];
    if (from.first == none) return leaf_of(instance_, from.item, from.turned);
    return joined(from.axis, block(from.first), block(from.second));
}

std::optional<Solution> TightBlocks::run(Cost limit, std::int64_t steps, std::size_t most_blocks) {
    if (!fields_.possible()) return {};
    const std::int64_t last = meter_.steps() + steps;
    for (std::size_t turn = 0; turn < losses.size(); ++turn) {
        const auto turns = static_cast<std::int64_t>(losses.size() - turn);
        end_ = meter_.steps() + (last - meter_.steps()) / turns;
        begin();
        grow(losses[turn], most_blocks); // what there was time for may be enough
        end_ = std::max(end_, meter_.steps() + (last - meter_.steps()) / turns / 2);
        list_full(limit);
        failed_.clear();
        uses_.clear();
        copies_.clear();
        for (const Sheet& sheet : instance_.sheets) copies_.push_back(sheet.copies);
        if (cover(all_, wanted_, limit)) {
            Solution solution;
            solution.unplaced.assign(instance_.items.size(), 0);
            for (const Use& use : uses_) {
                solution.patterns.push_back({use.sheet, 1, block(use.block)});
                solution.cost += instance_.sheets[use.sheet].cost;
            }
            return solution;
        }
        if (meter_.steps() >= last || meter_.over()) return {};
    }
    return {};
}

} // namespace barrow::layout
