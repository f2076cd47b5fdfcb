#pragma once

#include "layout/bound/stock_sums.hpp"
#include "layout/effort/meter.hpp"
#include "layout/sets/set_shapes.hpp"
#include "layout/tree/solution.hpp"

#include <optional>
#include <unordered_map>
#include <vector>

namespace barrow::layout {

/// The cheapest cover of the demand by sets that fit a sheet, for small instances: a recursion over
/// what is left and which limited sheets are used, each state once. Exact. Of every state only the
/// sets with its first remaining kind are tried, since some sheet must hold it, and none where the
/// budget left buys less area than is still wanted.
class ExactCover {
public:
    /// The shapes must be enumerated; shapes and sums must outlive it.
    ExactCover(const Instance& instance, const SetShapes& shapes, const StockSums& sums,
               Meter& meter);

    enum class End { solved, impossible, spent };

    static constexpr Cost any_cost = INT64_MAX / 4;

    /// `impossible`: there is no cover up to the limit. `spent`: it would take more steps or
    /// states, or the meter is over.
    End run(Cost limit, std::int64_t steps, std::size_t most_states);

    /// After `solved`.
    Solution solution() const;

private:
    struct State {
        SetKey left = 0;
        std::uint64_t used = 0; ///< copies of limited sheets as digits
        bool operator==(const State&) const = default;
    };
    struct StateHash {
        std::size_t operator()(const State& state) const {
            return SetKeyHash()(state.left)
                   ^ static_cast<std::size_t>(state.used * 0x9E3779B97F4A7C15U);
        }
    };
    struct Choice {
        Cost cost = 0; ///< cost of the rest; impossible: more than `failed`
        std::int32_t set = -1;
        std::size_t sheet = 0;
        Cost failed = -1;
    };

    bool number_sheets();
    void list_sets();
    bool fits(std::int32_t set, SetKey left) const;
    bool take_sheet(std::size_t sheet, std::uint64_t& used) const;
    base::Wide area_left(SetKey left) const;
    Cost best_from(const State& state, Cost budget);
    void try_set(std::int32_t set, const State& state, Cost budget, Choice& best);

    const Instance& instance_;
    const SetShapes& shapes_;
    const StockSums& sums_;
    Meter& meter_;
    std::vector<std::uint64_t> unit_; ///< digit of each limited sheet, 0: unlimited
    std::vector<std::uint64_t> base_;
    std::vector<std::vector<std::int32_t>> by_kind_; ///< sets by the first kind in them
    std::vector<std::vector<std::size_t>> sheets_;   ///< that hold the set, cheapest first
    std::unordered_map<State, Choice, StateHash> states_;
    std::int64_t end_ = 0;
    std::size_t most_states_ = 0;
};

} // namespace barrow::layout
