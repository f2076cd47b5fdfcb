#include "layout/fill/open_cuts.hpp"

#include <algorithm>
#include <utility>

namespace barrow::layout {
namespace {

constexpr std::int64_t far_apart = 5; // steps to look at what lies in another row of a table

} // namespace

OpenCuts::OpenCuts(const Instance& instance, const Grid& grid, const Reach& reach,
                   const GuillotineTable<double>& table, const CopyPrices& prices,
                   std::int64_t target, std::size_t most_cuts, Meter& meter)
    : grid_(grid), reach_(reach), table_(table), needed_(target - prices.all_copies),
      most_cuts_(most_cuts),
      outside_(static_cast<std::size_t>(grid.x.size()) * static_cast<std::size_t>(grid.y.size()),
               -1) {
    const Sheet& sheet = instance.sheets.front();
    const std::int32_t right = grid.x.below(sheet.width);
    const std::int32_t top = grid.y.below(sheet.height);
    if (inside(right, top) < needed_) return;
    outside_[least(right, top)] = 0;
    // Parts are less wide or, as wide, less high than what they are cut from: this order meets
    // every rectangle after all it can come from.
    for (std::int32_t x = right; x > 0 && complete_; --x) {
        for (std::int32_t y = top; y > 0; --y) {
            const std::int64_t outside = outside_[cell(x, y)];
            if (outside < 0) continue;
            State state{x, y, outside, cuts_.size(), 0};
            cut_across(x, y, outside);
            cut_up(x, y, outside);
            state.cuts_end = cuts_.size();
            states_.push_back(state);
        }
        meter.spend(std::exchange(steps_, 0) + top);
        complete_ = cuts_.size() <= most_cuts_ && !meter.over();
    }
    number_cuts();
}

void OpenCuts::keep(std::size_t first, std::size_t second, Along axis, std::int64_t first_outside,
                    std::int64_t second_outside) {
    steps_ += 4 * far_apart;
    outside_[first] = std::max(outside_[first], first_outside);
    outside_[second] = std::max(outside_[second], second_outside);
    cuts_.push_back({static_cast<std::int32_t>(first), static_cast<std::int32_t>(second), axis});
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

void OpenCuts::cut_across(std::int32_t x, std::int32_t y, std::int64_t outside) {
    const Length width = grid_.x.at(x);
    std::int32_t rest = x;
    for (std::int32_t cut = 1; grid_.x.at(cut) <= width / 2; ++cut) {
        ++steps_;
        if (reach_.width(cut, y) != cut) continue;
        while (grid_.x.at(rest) > width - grid_.x.at(cut)) --rest;
        const std::int64_t one = inside(cut, y);
        const std::int64_t two = inside(rest, y);
        steps_ += far_apart;
        if (outside + one + two >= needed_)
            keep(least(cut, y), least(rest, y), Along::x, outside + two, outside + one);
    }
}

void OpenCuts::cut_up(std::int32_t x, std::int32_t y, std::int64_t outside) {
    const Length height = grid_.y.at(y);
    std::int32_t rest = y;
    for (std::int32_t cut = 1; grid_.y.at(cut) <= height / 2; ++cut) {
        ++steps_;
        if (reach_.height(x, cut) != cut) continue;
        while (grid_.y.at(rest) > height - grid_.y.at(cut)) --rest;
        const std::int64_t one = inside(x, cut);
        const std::int64_t two = inside(x, rest);
        ++steps_;
        if (outside + one + two >= needed_)
            keep(least(x, cut), least(x, rest), Along::y, outside + two, outside + one);
    }
}

/// Cuts were noted with cells, not knowing yet which number a state would get.
void OpenCuts::number_cuts() {
    for (std::size_t i = 0; i < states_.size(); ++i)
        outside_[cell(states_[i].x, states_[i].y)] = static_cast<std::int64_t>(i);
    for (Cut& cut : cuts_) {
        cut.first = static_cast<std::int32_t>(outside_[static_cast<std::size_t>(cut.first)]);
        cut.second = static_cast<std::int32_t>(outside_[static_cast<std::size_t>(cut.second)]);
    }
    outside_ = {};
}

} // namespace barrow::layout
