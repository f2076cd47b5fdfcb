#pragma once

#include "layout/fill/copy_prices.hpp"
#include "layout/fill/reach.hpp"
#include "layout/table/guillotine_table.hpp"

#include <vector>

namespace barrow::layout {

/// The part of all possible cutting that could still lead to more than the best choice known:
/// rectangles and cuts for which the best of the inside, the best of the outside and the prices
/// of all copies together reach that far. (Filtering as for a reduced cost: Clautiaux, Sadykov,
/// Vanderbeck & Viaud, Discrete Optimization 29 (2018) 18-44.)
class OpenCuts {
public:
    /// A cut of one state into two others.
    struct Cut {
        std::int32_t first = 0;
        std::int32_t second = 0;
        Along axis = Along::x;
    };
    struct State {
        std::int32_t x = 0; ///< raster indices
        std::int32_t y = 0;
        std::int64_t outside = 0; ///< best of the sheet around it
        std::size_t cuts_begin = 0;
        std::size_t cuts_end = 0;
    };

    /// Keeps what can reach `target` (in units of 1/prices.scale). The table holds the values less
    /// the prices. Gives up, with complete() false, beyond so many cuts or when the meter is over.
    OpenCuts(const Instance& instance, const Grid& grid, const Reach& reach,
             const GuillotineTable<double>& table, const CopyPrices& prices, std::int64_t target,
             std::size_t most_cuts, Meter& meter);

    bool complete() const { return complete_; }
    /// Every state after those it is cut from: the sheet is first. Empty: nothing is left open.
    const std::vector<State>& states() const { return states_; }
    const std::vector<Cut>& cuts() const { return cuts_; }

private:
    std::size_t cell(std::int32_t x, std::int32_t y) const {
        return std::size_t(x) * std::size_t(grid_.y.size()) + std::size_t(y);
    }
    std::int64_t inside(std::int32_t x, std::int32_t y) const {
        return static_cast<std::int64_t>(table_.at(x, y));
    }
    std::size_t least(std::int32_t x, std::int32_t y) const;
    void cut_across(std::int32_t x, std::int32_t y, std::int64_t outside);
    void cut_up(std::int32_t x, std::int32_t y, std::int64_t outside);
    void keep(std::size_t first, std::size_t second, Along axis, std::int64_t first_outside,
              std::int64_t second_outside);
    void number_cuts();

    const Grid& grid_;
    const Reach& reach_;
    const GuillotineTable<double>& table_;
    std::int64_t needed_; ///< from inside and outside, prices of all copies taken off
    std::size_t most_cuts_;
    std::vector<std::int64_t> outside_; ///< of each cell, -1: not reached
    std::vector<State> states_;
    std::vector<Cut> cuts_;
    std::int64_t steps_ = 0; ///< not yet told to the meter
    bool complete_ = true;
};

} // namespace barrow::layout
