#include "layout/fill/open_cuts.hpp"

#include <algorithm>

namespace barrow::layout {

OpenCuts::OpenCuts(const Instance& instance, const Grid& grid, const Reach& reach,
                   const GuillotineTable<double>& table, const CopyPrices& prices,
                   std::int64_t target, std::size_t most_states, Meter& meter)
    : grid_(grid), reach_(reach), table_(table), needed_(target - prices.all_copies),
      marks_(static_cast<std::size_t>(grid.x.size()) * static_cast<std::size_t>(grid.y.size()),
             -1) {
    const Sheet& sheet = instance.sheets.front();
    const std::int32_t right = grid.x.below(sheet.width);
    const std::int32_t top = grid.y.below(sheet.height);
    const std::size_t whole = least(right, top);
    if (inside(whole) < needed_) return;
    marks_[whole] = 0;
    // Parts are less wide or, as wide, less high than what they are cut from: this order meets
    // every rectangle after all it can come from.
    for (std::int32_t x = right; x > 0 && complete_; --x) {
        std::int64_t steps = top;
        for (std::int32_t y = top; y > 0; --y) {
            const std::int64_t outside = marks_[cell(x, y)];
            if (outside < 0) continue;
            states_.push_back({x, y, outside});
            const auto spread = [&](std::size_t first, std::size_t second, Along, std::int32_t) {
                marks_[first] = std::max(marks_[first], outside + inside(second));
                marks_[second] = std::max(marks_[second], outside + inside(first));
            };
            look_across(states_.back(), steps, spread);
            look_up(states_.back(), steps, spread);
        }
        meter.spend(steps);
        complete_ = states_.size() <= most_states && !meter.over();
    }
    for (std::size_t i = 0; i < states_.size(); ++i)
        marks_[cell(states_[i].x, states_[i].y)] = static_cast<std::int64_t>(i);
}

/// The least rectangle that holds whatever this one can hold.
std::size_t OpenCuts::least(std::int32_t x, std::int32_t y) const {
    for (;;) {
        const std::int32_t width = reach_.width(x, y);
        const std::int32_t height = reach_.height(width, y);
        if (width == x && height == y) return cell(x, y);
        x = width;
        y = height;
    }
}

OpenCuts::Cut OpenCuts::cut(const State& state, Along axis, std::int32_t at) const {
    if (axis == Along::x) {
        const Length rest = grid_.x.at(state.x) - grid_.x.at(at);
        return {number(least(at, state.y)), number(least(grid_.x.below(rest), state.y)), axis, at};
    }
    const Length rest = grid_.y.at(state.y) - grid_.y.at(at);
    return {number(least(state.x, at)), number(least(state.x, grid_.y.below(rest))), axis, at};
}

} // namespace barrow::layout
