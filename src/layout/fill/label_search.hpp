#pragma once

#include "layout/fill/label_set.hpp"
#include "layout/fill/open_cuts.hpp"

#include <vector>

namespace barrow::layout {

/// Finds the best choice, or proves that the known one is best, by building contents of the open
/// rectangles from small to large. For some kinds, the watched ones, copies are counted and limited
/// and values taken in full; all others may be repeated at their value less the price of a copy.
/// More kinds are watched as answers turn out to repeat them too often (decremental state space
/// relaxation: Boland, Dethridge & Dumitrescu, Oper. Res. Letters 34 (2006) 58-68; for this problem
/// after Christofides & Hadjiconstantinou, EJOR 83 (1995) 21-38). The upper bounds its labels prove
/// for rectangles go back into the table that says what is open, so that less is open at the next
/// aim.
class LabelSearch {
public:
    /// Lowers entries of the table that turn out too high.
    LabelSearch(const Instance& instance, const Grid& grid, GuillotineTable<double>& table,
                const CopyPrices& prices, Choice& choice, Meter& meter);

    /// Works until proven, or the steps are spent or labels become too many. Returns the proven
    /// bound: equal to the value of the choice when that is optimal. A later call continues with
    /// the watched kinds and the bound.
    Cost run(std::int64_t steps);

private:
    struct Field {
        std::int32_t kind = 0;
        int shift = 0;
    };
    enum class Round { nothing_left, better_choice, next, stuck };

    bool over() const { return meter_.over() || meter_.steps() >= end_; }
    bool watch(std::int32_t kind);
    Round round(Cost aim);
    bool build(const OpenCuts& open);
    void add_leaves(const OpenCuts::State& state);
    void add_joins(const OpenCuts& open, const OpenCuts::State& state);
    bool join(const OpenCuts::Cut& cut);
    void lower(const OpenCuts& open);
    void add(const Label& label);
    Round judge(const OpenCuts& open);
    bool watch_more(const std::vector<std::int64_t>& counts);
    Block block_of(const OpenCuts& open, std::size_t state, std::int32_t label) const;
    std::int64_t root_worth(const Label& label) const;

    const Instance& instance_;
    const Grid& grid_;
    Reach reach_;
    GuillotineTable<double>& table_;
    const CopyPrices& prices_;
    Choice& choice_;
    Meter& meter_;
    std::vector<Field> fields_;
    std::vector<int> field_of_; ///< of each kind, -1 when not watched
    int bits_ = 0;
    Packed guards_ = 0; ///< top bit of each field
    Packed limits_ = 0; ///< copies allowed in each field, guard bits set
    Cost bound_;
    std::int64_t end_ = 0; ///< of this run, in steps of the meter
    std::int64_t target_ = 0;
    std::int64_t needed_ = 0;                ///< of the current label, less the outside
    std::vector<std::vector<Label>> labels_; ///< of each state, most reduced value first
    std::size_t built_ = 0;                  ///< from this state on, labels are known
    LabelSet current_;                       ///< of the current state
};

} // namespace barrow::layout
