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
    const Corner whole = least({right, top});
    if (inside(whole) < needed_) return;
    marks_[cell(whole)] = 0;
    // Parts are narrower or, if as wide, lower than what they are cut from: this order meets every
    // rectangle after all it can come from.
    for (std::int32_t x = right; x > 0 && complete_; --x) {
        std::int64_t steps = top;
        for (std::int32_t y = top; y > 0; --y) {
            const std::int64_t outside = marks_[cell({x, y})];
            if (outside < 0) continue;
            states_.push_back({x, y, outside});
            const auto spread = [&](const Corner& first, const Corner& second, Along,
                                    std::int32_t) {
                std::int64_t& one = marks_[cell(first)];
                one = std::max(one, outside + inside(second));
                std::int64_t& two = marks_[cell(second)];
                two = std::max(two, outside + inside(first));
            };
            look<Along::x>(states_.back(), steps, spread);
            look<Along::y>(states_.back(), steps, spread);
        }
        meter.spend(steps);
        complete_ = states_.size() <= most_states && !meter.over();
    }
    for (std::size_t i = 0; i < states_.size(); ++i)
        marks_[cell({states_[i].x, states_[i].y})] = static_cast<std::int64_t>(i);
}

/// The least rectangle that holds everything this one can hold.
OpenCuts::Corner OpenCuts::least(Corner corner) const {
    for (;;) {
        const std::int32_t width = reach_.width(corner.x, corner.y);
        const std::int32_t height = reach_.height(width, corner.y);
        if (width == corner.x && height == corner.y) return corner;
        corner = {width, height};
    }
}

template <Along axis>
OpenCuts::Cut OpenCuts::cut_along(const State& state, std::int32_t at) const {
    const Raster& raster = axis == Along::x ? grid_.x : grid_.y;
    const Length whole = raster.at(axis == Along::x ? state.x : state.y);
    const std::int32_t rest = raster.below(whole - raster.at(at));
    return {number(least(part<axis>(state, at))), number(least(part<axis>(state, rest))), axis, at};
}

OpenCuts::Cut OpenCuts::cut(const State& state, Along axis, std::int32_t at) const {
    return axis == Along::x ? cut_along<Along::x>(state, at) : cut_along<Along::y>(state, at);
}

} // namespace barrow::layout
