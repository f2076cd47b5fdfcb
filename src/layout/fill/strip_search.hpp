#pragma once

#include "layout/fill/choice.hpp"
#include "layout/fill/counted_parts.hpp"

#include <unordered_set>
#include <vector>

namespace barrow::layout {

/// Improves a choice by cutting strips off the sheet, each full of a part that wastes little, until
/// nothing is left. A state is what is left and which items are used; of all states with about the
/// same area left only those that wasted least are expanded (a beam as wide as the steps allow,
/// after Fontan & Libralesso's anytime tree search for guillotine patterns, 2020). For few large
/// items, where removing and refilling seldom helps.
class StripSearch {
public:
    StripSearch(const Instance& instance, Choice& choice, Meter& meter);

    /// Allows ever more wasteful parts and wider beams, until the steps are spent or `bound` is
    /// reached. Does nothing where copies do not fit PackedCounts.
    void run(std::int64_t steps, Cost bound);

private:
    struct Level {
        std::vector<std::int32_t> states;
        std::int64_t most = INT64_MAX; ///< greatest waste of a state worth keeping
    };
    struct State {
        Length width = 0; ///< left
        Length height = 0;
        Packed counts = 0; ///< used
        Cost value = 0;
        std::int32_t from = -1;
        std::int32_t part = -1; ///< cut off last
        Along axis = Along::x;
    };

    bool over() const { return meter_.over() || meter_.steps() >= end_; }
    std::int64_t wasted(const State& state) const;
    std::int64_t may_waste() const;
    void cut_down();
    void thin_out(Level& level);
    void go_on(std::int32_t index);
    void cut_strips(std::int32_t index, std::int64_t allowed, Along axis);
    void push(const State& state);
    Block block(const State& last) const;

    const Instance& instance_;
    Sheet sheet_;
    Choice& choice_;
    Meter& meter_;
    std::optional<PackedCounts> counts_;
    std::optional<CountedParts> parts_;
    std::int64_t end_ = 0;
    std::int64_t steps_ = 0; ///< not yet reported to the meter
    std::vector<State> states_;
    std::vector<Level> levels_; ///< states by the area left
    std::size_t beam_ = 0;
    std::int64_t strip_ = 0; ///< greatest waste of a strip off a large rectangle
    std::unordered_set<std::uint64_t> known_;
};

} // namespace barrow::layout
