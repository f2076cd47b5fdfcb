#pragma once

#include "layout/fill/copy_prices.hpp"
#include "layout/fill/reach.hpp"
#include "layout/table/guillotine_table.hpp"

#include <vector>

namespace barrow::layout {

/// The rectangles and cuts that could still lead to more than the best known choice: those for
/// which the best of the inside, the best of the outside and the prices of all copies add up to
/// enough. (Filtering by reduced cost: Clautiaux, Sadykov, Vanderbeck & Viaud, Discrete
/// Optimization 29 (2018) 18-44.) Cuts far outnumber rectangles: they are found again when asked
/// for, not stored.
class OpenCuts {
public:
    /// A cut of one state into two others, and its position (the part before it is the first).
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
    /// rectangle that can hold a content, an upper bound on value less prices. Gives up, with
    /// complete() false, beyond this many states or when the meter is over.
    OpenCuts(const Instance& instance, const Grid& grid, const Reach& reach,
             const GuillotineTable<double>& table, const CopyPrices& prices, std::int64_t target,
             std::size_t most_states, Meter& meter);

    bool complete() const { return complete_; }
    /// The states, each after those it is cut from: the sheet is first. Empty: nothing is left
    /// open.
    const std::vector<State>& states() const { return states_; }

    /// Calls `to(cut)` for each open cut of a state while it returns true; returns the steps it
    /// took (see Meter). Requires complete(), and an unchanged table.
    template <class To>
    std::int64_t each_cut(const State& state, const To& to) const {
        std::int64_t steps = 0;
        bool going = true;
        const auto numbered = [&](const Corner& first, const Corner& second, Along axis,
                                  std::int32_t at) {
            going = going && to(Cut{number(first), number(second), axis, at});
        };
        look<Along::x>(state, steps, numbered);
        look<Along::y>(state, steps, numbered);
        return steps;
    }
    /// The cut of a state at this position.
    Cut cut(const State& state, Along axis, std::int32_t at) const;

private:
    struct Corner {
        std::int32_t x = 0; ///< raster indices
        std::int32_t y = 0;
    };

    std::size_t cell(const Corner& corner) const {
        return std::size_t(corner.x) * std::size_t(grid_.y.size()) + std::size_t(corner.y);
    }
    std::int64_t inside(const Corner& corner) const {
        return static_cast<std::int64_t>(table_.at(corner.x, corner.y));
    }
    /// The part of a state before a cut at this position.
    template <Along axis>
    static Corner part(const State& state, std::int32_t at) {
        return axis == Along::x ? Corner{at, state.y} : Corner{state.x, at};
    }
    Corner least(Corner corner) const;
    std::int32_t number(const Corner& corner) const {
        return static_cast<std::int32_t>(marks_[cell(corner)]);
    }
    template <Along axis>
    Cut cut_along(const State& state, std::int32_t at) const;
    template <Along axis, class To>
    void look(const State& state, std::int64_t& steps, const To& to) const;

    static constexpr std::int64_t far_apart = 5; ///< steps to look into another row of a table

    const Grid& grid_;
    const Reach& reach_;
    const GuillotineTable<double>& table_;
    std::int64_t needed_; ///< from inside and outside, less the prices of all copies
    /// For each cell: the best outside, -1 when not reached; once complete, the number of its
    /// state.
    std::vector<std::int64_t> marks_;
    std::vector<State> states_;
    bool complete_ = true;
};

template <Along axis, class To>
void OpenCuts::look(const State& state, std::int64_t& steps, const To& to) const {
    constexpr bool across = axis == Along::x;
    const Raster& raster = across ? grid_.x : grid_.y;
    const std::int32_t end = across ? state.x : state.y;
    const Length whole = raster.at(end);
    std::int32_t rest = end;
    for (std::int32_t at = 1; raster.at(at) <= whole / 2; ++at) {
        ++steps;
        if ((across ? reach_.width(at, state.y) : reach_.height(state.x, at)) != at) continue;
        while (raster.at(rest) > whole - raster.at(at)) --rest;
        steps += across ? far_apart : 1;
        const Corner one = part<axis>(state, at);
        const Corner two = part<axis>(state, rest);
        if (state.outside + inside(one) + inside(two) < needed_) continue;
        steps += 4 * far_apart;
        const Corner first = least(one);
        const Corner second = least(two);
        if (state.outside + inside(first) + inside(second) >= needed_) to(first, second, axis, at);
    }
}

} // namespace barrow::layout
