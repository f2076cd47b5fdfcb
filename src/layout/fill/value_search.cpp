#include "layout/fill/value_search.hpp"

#include <algorithm>

namespace barrow::layout {
namespace {

constexpr std::size_t memory = 200; // rounds late acceptance looks back; found by trial

} // namespace

ValueSearch::ValueSearch(const Instance& instance, std::uint64_t seed, Choice& choice, Meter& meter)
    : instance_(instance), choice_(choice), meter_(meter), random_(seed) {}

void ValueSearch::ruin() {
    removed_.clear();
    const std::int32_t removals = 1 + random_.below(4);
    for (std::int32_t n = 0; n < removals && !tree_.empty(); ++n) {
        std::int32_t node = 0;
        const bool leaf = random_.chance(500);
        do {
            node = random_.below(tree_.slots());
        } while (!tree_.node(node).alive || (leaf && !tree_.node(node).leaf()));
        tree_.remove(node, removed_);
    }
    tree_.settle();
    for (const std::int32_t item : removed_) {
        ++left_[static_cast<std::size_t>(item)];
        value_ -= instance_.items[static_cast<std::size_t>(item)].value;
    }
    meter_.spend(std::int64_t{20} * tree_.slots() + 100);
}

void ValueSearch::recreate() {
    order_.clear();
    for (std::size_t i = 0; i < left_.size(); ++i) {
        const Item& item = instance_.items[i];
        if (left_[i] == 0 || item.value == 0) continue;
        // Value per area and size both count, in a mixture that changes from round to round.
        const double density = static_cast<double>(item.value) / static_cast<double>(item.area());
        const double noise = 0.5 + static_cast<double>(random_.below(1000)) / 1000.0;
        const double size = static_cast<double>(item.area());
        order_.emplace_back(-density * density * size * noise, static_cast<std::int32_t>(i));
    }
    std::sort(order_.begin(), order_.end());
    const auto fit = static_cast<Fit>(random_.below(3));
    for (const auto& [key, kind] : order_) {
        const auto index = static_cast<std::size_t>(kind);
        const Item& item = instance_.items[index];
        while (left_[index] > 0) {
            if (random_.chance(20)) break;
            const Spot spot = best_spot(tree_, item, fit);
            meter_.spend(std::int64_t{8} * tree_.slots() + 20);
            if (!spot.found()) break;
            insert_at(tree_, spot, item, kind);
            meter_.spend(std::int64_t{20} * tree_.slots());
            --left_[index];
            value_ += item.value;
        }
    }
}

void ValueSearch::run(std::int64_t steps, Cost bound) {
    if (!choice_.block()) return;
    const Sheet& sheet = instance_.sheets.front();
    tree_ = SlicingTree::of(*choice_.block(), sheet.width, sheet.height);
    value_ = choice_.value();
    left_.clear();
    for (const Item& item : instance_.items) left_.push_back(item.demand);
    for (const std::int32_t item : tree_.items()) --left_[static_cast<std::size_t>(item)];
    history_.assign(memory, value_);
    std::int64_t end = meter_.steps() + steps;
    for (std::size_t round = 0; meter_.steps() < end && !meter_.over(); ++round) {
        before_ = tree_;
        left_before_ = left_;
        const Cost value_before = value_;
        ruin();
        recreate();
        Cost& late = history_[round % memory];
        if (value_ < value_before && value_ < late) {
            tree_ = before_;
            left_ = left_before_;
            value_ = value_before;
        } else if (value_ > choice_.value()) {
            choice_.offer(tree_.block());
            end = meter_.steps() + steps;
            if (choice_.value() >= bound) return;
        }
        late = value_;
    }
}

} // namespace barrow::layout
