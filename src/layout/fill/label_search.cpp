#include "layout/fill/label_search.hpp"

#include <algorithm>
#include <bit>
#include <utility>

namespace barrow::layout {
namespace {

constexpr std::int32_t turned_bit = 1 << 30;
constexpr std::int32_t up_bit = 1 << 30;
// Limits on memory: about 50 bytes a state, 48 a label.
constexpr std::size_t most_states = 2'000'000;
constexpr std::size_t most_labels = 5'000'000;

} // namespace

LabelSearch::LabelSearch(const Instance& instance, const Grid& grid, GuillotineTable<double>& table,
                         const CopyPrices& prices, Choice& choice, Meter& meter)
    : instance_(instance), grid_(grid), reach_(instance, grid), table_(table), prices_(prices),
      choice_(choice), meter_(meter), field_of_(instance.items.size(), -1), bound_(prices.bound) {}

bool LabelSearch::watch(std::int32_t kind) {
    const auto index = static_cast<std::size_t>(kind);
    const auto demand = static_cast<std::uint64_t>(instance_.items[index].demand);
    const int width = static_cast<int>(std::bit_width(demand)) + 1;
    if (field_of_[index] >= 0 || bits_ + width > 128) return false;
    field_of_[index] = static_cast<int>(fields_.size());
    fields_.push_back({kind, bits_});
    const Packed guard = Packed(1) << (bits_ + width - 1);
    guards_ |= guard;
    limits_ |= guard | (Packed(demand) << bits_);
    bits_ += width;
    return true;
}

void LabelSearch::add(const Label& label) {
    if (label.reduced >= needed_) current_.add(label);
}

void LabelSearch::add_leaves(const OpenCuts::State& state) {
    const Length width = grid_.x.at(state.x);
    const Length height = grid_.y.at(state.y);
    for (std::size_t i = 0; i < instance_.items.size(); ++i) {
        const Item& item = instance_.items[i];
        const bool upright = item.width <= width && item.height <= height;
        const bool sideways = item.turns && item.height <= width && item.width <= height;
        if (!upright && !sideways) continue;
        Label label;
        label.reduced = item.value * prices_.scale - prices_.prices[i];
        label.worth = label.reduced;
        label.item = static_cast<std::int32_t>(i) | (upright ? 0 : turned_bit);
        if (field_of_[i] >= 0) {
            label.worth = item.value * prices_.scale;
            label.counts = Packed(1) << fields_[static_cast<std::size_t>(field_of_[i])].shift;
        } else if (label.reduced <= 0) {
            continue;
        }
        add(label);
    }
}

void LabelSearch::add_joins(const OpenCuts& open, const OpenCuts::State& state) {
    meter_.spend(open.each_cut(state, [&](const OpenCuts::Cut& cut) { return join(cut); }));
}

/// False when out of steps.
bool LabelSearch::join(const OpenCuts::Cut& cut) {
    const std::vector<Label>& left = labels_[static_cast<std::size_t>(cut.first)];
    const std::vector<Label>& right = labels_[static_cast<std::size_t>(cut.second)];
    const std::int32_t axis = cut.axis == Along::y ? up_bit : 0;
    for (std::size_t i = 0; i < left.size(); ++i) {
        // Strips side by side are taken one by one from the first: no other order of the same
        // strips gives a better label.
        if (left[i].cut >= 0 && (left[i].cut & up_bit) == axis) continue;
        std::size_t j = 0;
        for (; j < right.size() && left[i].reduced + right[j].reduced >= needed_; ++j) {
            const Packed counts = left[i].counts + right[j].counts;
            if (((limits_ - counts) & guards_) != guards_) continue;
            Label label;
            label.worth = left[i].worth + right[j].worth;
            label.reduced = left[i].reduced + right[j].reduced;
            label.counts = counts;
            label.cut = cut.at | axis;
            label.first = static_cast<std::int32_t>(i);
            label.second = static_cast<std::int32_t>(j);
            add(label);
        }
        meter_.spend(current_.steps() + static_cast<std::int64_t>(j) * 4 + 4);
        if (over()) return false;
        if (j == 0) break; // the following ones fall even shorter
    }
    return true;
}

bool LabelSearch::build(const OpenCuts& open) {
    labels_.assign(open.states().size(), {});
    current_ = {}; // where the last run broke off
    built_ = labels_.size();
    std::size_t count = 0;
    // Parts come after the rectangles they are cut from.
    for (std::size_t s = open.states().size(); s-- > 0;) {
        const OpenCuts::State& state = open.states()[s];
        needed_ = target_ - prices_.all_copies - state.outside;
        if (needed_ <= 0) add(Label{});
        add_leaves(state);
        add_joins(open, state);
        if (over()) return false;
        labels_[s] = current_.take_best(guards_);
        built_ = s;
        meter_.spend(current_.steps());
        count += labels_[s].size();
        if (count > most_labels) return false;
    }
    return true;
}

/// A rectangle on the way to the target has a label in every part it is cut into (perhaps of a
/// content with no less reduced value): so a part is worth no more than its best label, or too
/// little.
void LabelSearch::lower(const OpenCuts& open) {
    for (std::size_t s = built_; s < labels_.size(); ++s) {
        const OpenCuts::State& state = open.states()[s];
        const std::int64_t needed = target_ - prices_.all_copies - state.outside;
        const std::int64_t best = labels_[s].empty() ? needed - 1 : labels_[s].front().reduced;
        table_.lower(state.x, state.y, static_cast<double>(std::max<std::int64_t>(best, 0)));
    }
}

/// Upper bound for a whole sheet with this content: unwatched kinds at their reduced value plus the
/// price of all their copies.
std::int64_t LabelSearch::root_worth(const Label& label) const {
    std::int64_t sum = label.worth + prices_.all_copies;
    for (const Field& field : fields_) {
        const auto kind = static_cast<std::size_t>(field.kind);
        sum -= prices_.prices[kind] * instance_.items[kind].demand;
    }
    return sum;
}

Block LabelSearch::block_of(const OpenCuts& open, std::size_t state, std::int32_t index) const {
    const Label& label = labels_[state][static_cast<std::size_t>(index)];
    if (label.item >= 0)
        return leaf_of(instance_, label.item & ~turned_bit, (label.item & turned_bit) != 0);
    if (label.cut < 0) return {};
    const OpenCuts::Cut cut = open.cut(
        open.states()[state], (label.cut & up_bit) != 0 ? Along::y : Along::x, label.cut & ~up_bit);
    Block first = block_of(open, static_cast<std::size_t>(cut.first), label.first);
    Block second = block_of(open, static_cast<std::size_t>(cut.second), label.second);
    if (first.width == 0) return second;
    if (second.width == 0) return first;
    return joined(cut.axis, std::move(first), std::move(second));
}

/// Watches one more kind: one that was repeated too often or, if none was, one whose unused copies
/// the bound still counts, the most expensive. Only one, since each adds many labels, and what it
/// lowers may make others unnecessary.
bool LabelSearch::watch_more(const std::vector<std::int64_t>& counts) {
    std::vector<std::pair<std::int64_t, std::int32_t>> excess;
    std::vector<std::pair<std::int64_t, std::int32_t>> unused;
    for (std::size_t i = 0; i < counts.size(); ++i) {
        if (field_of_[i] >= 0) continue;
        const std::int64_t over = counts[i] - instance_.items[i].demand;
        const auto kind = static_cast<std::int32_t>(i);
        if (over > 0) excess.emplace_back(-over * instance_.items[i].value, kind);
        if (over < 0 && prices_.prices[i] > 0) unused.emplace_back(over * prices_.prices[i], kind);
    }
    auto& kinds = excess.empty() ? unused : excess;
    std::sort(kinds.begin(), kinds.end());
    return std::any_of(kinds.begin(), kinds.end(),
                       [&](const auto& kind) { return watch(kind.second); });
}

LabelSearch::Round LabelSearch::judge(const OpenCuts& open) {
    const std::vector<Label>& root = labels_.front();
    std::int32_t best = -1;
    std::int64_t most = 0;
    for (std::size_t i = 0; i < root.size(); ++i) {
        if (best >= 0 && root_worth(root[i]) <= most) continue;
        best = static_cast<std::int32_t>(i);
        most = root_worth(root[i]);
    }
    if (best < 0 || most < target_) return Round::nothing_left;
    bound_ = std::min(bound_, most / prices_.scale);
    const Block block = block_of(open, 0, best);
    if (block.width > 0 && choice_.offer(block)) return Round::better_choice;
    std::vector<std::int64_t> counts(instance_.items.size(), 0);
    if (block.width > 0) count_items(block, counts);
    return watch_more(counts) ? Round::next : Round::stuck;
}

LabelSearch::Round LabelSearch::round(Cost aim) {
    target_ = aim * prices_.scale;
    labels_.clear(); // before more memory is allocated
    const OpenCuts open(instance_, grid_, reach_, table_, prices_, target_, most_states, meter_);
    if (open.states().empty()) return Round::nothing_left;
    if (!open.complete()) return Round::stuck;
    const Round answer = build(open) ? judge(open) : Round::stuck;
    lower(open); // as far as it was built
    return answer;
}

Cost LabelSearch::run(std::int64_t steps) {
    end_ = meter_.steps() + steps;
    // The best value is mostly closer to the bound than to the best known: so aim high first, and
    // lower whenever that is proven too high. Where an aim leaves too much open, one in between is
    // easier, and what it lowers in the table makes the next easier too.
    Cost window = std::max<Cost>(1, (bound_ - choice_.value()) / 64);
    const Cost least = std::max<Cost>(1, window / 64);
    while (bound_ > choice_.value()) {
        const Cost aim = std::max(choice_.value() + 1, bound_ - window + 1);
        const Round answer = round(aim);
        if (answer == Round::stuck) {
            if (over() || window <= least) break;
            window = std::max(least, window / 4);
        }
        if (answer != Round::nothing_left) continue;
        bound_ = aim - 1;
        window += (window + 1) / 2;
    }
    return bound_;
}

} // namespace barrow::layout
