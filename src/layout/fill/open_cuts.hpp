#pragma once

#include "layout/fill/copy_prices.hpp"
#include "layout/fill/reach.hpp"
#include "layout/table/guillotine_table.hpp"

#include <vector>

namespace barrow::layout {

/// The part of all possible cutting that could still lead to more than the best choice known:
/// rectangles and cuts for which the best of the inside, the best of the outside and the prices
/// of all copies together reach that far. (Filtering as for a reduced cost: Clautiaux, Sadykov,
/// Vanderbeck & Viaud, Discrete Optimization 29 (2018) 18-44.) Cuts are many times as many as
/// rectangles: they are found anew when asked for, not kept.
class OpenCuts {
public:
    /// A cut of one state into two others, and where it stands (of the two, the part before it is
    /// the first).
    struct Cut {
        std::int32_t first = 0;
        std::int32_t second = 0;
        Along axis = Along::x;
        std::int32_t at = 0; ///< raster index
    };
    struct State {
        std::int32_t x = 0; ///< raster indices
        std::int32_t y = 0;
        std::int64_t outside = 0; ///< best of the sheet around it
    };

    /// Keeps what can reach `target` (in units of 1/prices.scale). The table holds, for the least
    /// rectangle that can hold a content, no less than the best value less the prices. Gives up,
    /// with complete() false, beyond so many states or when the meter is over.
    OpenCuts(const Instance& instance, const Grid& grid, const Reach& reach,
             const GuillotineTable<double>& table, const CopyPrices& prices, std::int64_t target,
             std::size_t most_states, Meter& meter);

    bool complete() const { return complete_; }
    /// Every state after those it is cut from: the sheet is first. Empty: nothing is left open.
    const std::vector<State>& states() const { return states_; }

    /// Calls `to(cut)` for each open cut of a state as long as it answers true; answers the steps
    /// it took (see Meter). Requires complete(), and the table as it was.
    template <class To>
    std::int64_t each_cut(const State& state, const To& to) const {
        std::int64_t steps = 0;
        bool going = true;
        const auto numbered = [&](std::size_t first, std::size_t second, Along axis,
                                  std::int32_t at) {
            going = going && to(Cut{number(first), number(second), axis, at});
        };
        look_across(state, steps, numbered);
        look_up(state, steps, numbered);
        return steps;
    }
    /// The cut of a state that stands there.
    Cut cut(const State& state, Along axis, std::int32_t at) const;

private:
    std::size_t cell(std::int32_t x, std::int32_t y) const {
        return std::size_t(x) * std::size_t(grid_.y.size()) + std::size_t(y);
    }
    std::int64_t inside(std::int32_t x, std::int32_t y) const {
        return static_cast<std::int64_t>(table_.at(x, y));
    }
    std::int64_t inside(std::size_t cell) const {
        const auto rows = std::size_t(grid_.y.size());
        return inside(static_cast<std::int32_t>(cell / rows),
                      static_cast<std::int32_t>(cell % rows));
    }
    std::size_t least(std::int32_t x, std::int32_t y) const;
    std::int32_t number(std::size_t cell) const { return static_cast<std::int32_t>(marks_[cell]); }
    template <class To>
    void look_across(const State& state, std::int64_t& steps, const To& to) const;
    template <class To>
    void look_up(const State& state, std::int64_t& steps, const To& to) const;

    static constexpr std::int64_t far_apart = 5; ///< steps to look into another row of a table

    const Grid& grid_;
    const Reach& reach_;
    const GuillotineTable<double>& table_;
    std::int64_t needed_; ///< from inside and outside, prices of all copies taken off
    /// Of each cell: the best outside, -1 when not reached; once complete, the number of its state.
    std::vector<std::int64_t> marks_;
    std::vector<State> states_;
    bool complete_ = true;
};

template <class To>
void OpenCuts::look_across(const State& state, std::int64_t& steps, const To& to) const {
    const Length width = grid_.x.at(state.x);
    std::int32_t rest = state.x;
    for (std::int32_t at = 1; grid_.x.at(at) <= width / 2; ++at) {
        ++steps;
        if (reach_.width(at, state.y) != at) continue;
        while (grid_.x.at(rest) > width - grid_.x.at(at)) --rest;
        steps += far_apart;
        if (state.outside + inside(at, state.y) + inside(rest, state.y) < needed_) continue;
        steps += 4 * far_apart;
        const std::size_t first = least(at, state.y);
        const std::size_t second = least(rest, state.y);
        if (state.outside + inside(first) + inside(second) >= needed_)
            to(first, second, Along::x, at);
    }
}

template <class To>
void OpenCuts::look_up(const State& state, std::int64_t& steps, const To& to) const {
    const Length height = grid_.y.at(state.y);
    std::int32_t rest = state.y;
    for (std::int32_t at = 1; grid_.y.at(at) <= height / 2; ++at) {
        ++steps;
        if (reach_.height(state.x, at) != at) continue;
        while (grid_.y.at(rest) > height - grid_.y.at(at)) --rest;
        ++steps;
        if (state.outside + inside(state.x, at) + inside(state.x, rest) < needed_) continue;
        steps += 4 * far_apart;
        const std::size_t first = least(state.x, at);
        const std::size_t second = least(state.x, rest);
        if (state.outside + inside(first) + inside(second) >= needed_)
            to(first, second, Along::y, at);
    }
}

} // namespace barrow::layout
