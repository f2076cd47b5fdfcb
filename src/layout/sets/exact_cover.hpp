#pragma once

#include "layout/bound/stock_sums.hpp"
#include "layout/effort/meter.hpp"
#include "layout/sets/packed_counts.hpp"
#include "layout/sets/set_shapes.hpp"
#include "layout/tree/solution.hpp"

#include <cstdint>
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
        PackedCounts left;
        std::uint64_t used = 0; ///< copies of limited sheets as digits
        bool operator==(const State&) const = default;
    };
    struct StateHash {
        std::size_t operator()(const State& state) const {
            return static_cast<std::size_t>(state.left.hash(state.used));
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
    const std::vector<std::size_t>& sheets_for(std::int32_t set);
    bool take_sheet(std::size_t sheet, std::uint64_t& used) const;
    Cost best_from(const State& state, base::Wide area, Cost budget);
    void try_set(std::int32_t set, const State& state, base::Wide area, Cost budget, Choice& best);

    const Instance& instance_;
    const SetShapes& shapes_;
    const StockSums& sums_;
    Meter& meter_;
    std::vector<std::uint64_t> unit_; ///< digit of each limited sheet, 0: unlimited
    std::vector<std::uint64_t> base_;
    struct Listed {
        PackedCounts counts;
        std::int64_t area = 0;
        bool sheets_known = false;
        /// Those that hold the set, cheapest first; none after one that is unlimited, since a
        /// dearer sheet would only save a limited one.
        std::vector<std::size_t> sheets;
    };
    CountFields fields_;
    std::vector<std::vector<std::int32_t>> by_kind_; ///< sets by the first kind in them
    std::vector<Listed> listed_;                     ///< of each set
    std::vector<std::size_t> by_cost_;               ///< all sheets, cheapest first
    std::unordered_map<State, Choice, StateHash> states_;
    std::int64_t end_ = 0;
    std::size_t most_states_ = 0;
};

} // namespace barrow::layout
