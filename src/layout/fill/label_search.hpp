#pragma once

#include "layout/fill/counted_parts.hpp"
#include "layout/fill/open_cuts.hpp"

#include <vector>

namespace barrow::layout {

/// Finds the best choice, or proves that the best known cannot be beaten, by building contents of
/// the open rectangles from small to large. Of some kinds, the watched ones, the copies in a
/// content are counted and limited and their values taken in full; all others may be repeated at
/// will at their value less the price of a copy. Kinds are watched one after another as answers
/// turn out to repeat them too often (decremental state space relaxation: Boland, Dethridge &
/// Dumitrescu, Oper. Res. Letters 34 (2006) 58-68; for this problem after Christofides &
/// Hadjiconstantinou, EJOR 83 (1995) 21-38).
class LabelSearch {
public:
    LabelSearch(const Instance& instance, const Grid& grid, const GuillotineTable<double>& table,
                const CopyPrices& prices, Choice& choice, Meter& meter);

    /// Works until proven, so many steps are spent or labels become too many. Answers the bound
    /// then proven: equal to the value of the choice when that is the best there is. Called again,
    /// it goes on with the kinds watched and the bound it had.
    Cost run(std::int64_t steps);

private:
    struct Label {
        std::int64_t worth = 0;   ///< watched items in full, others less their price
        std::int64_t reduced = 0; ///< all items less their price
        Packed counts = 0;        ///< of watched kinds, each in a field of its own
        std::int32_t item = -1;   ///< a leaf (turned: bit 30), or
        std::int32_t cut = -1;    ///< which cut of OpenCuts,
        std::int32_t first = 0;   ///< and which labels of the two parts
        std::int32_t second = 0;
    };
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
    void add(const Label& label);
    Round judge(const OpenCuts& open);
    bool watch_more(const std::vector<std::int64_t>& counts);
    Block block_of(const OpenCuts& open, std::size_t state, std::int32_t label) const;
    std::int64_t root_worth(const Label& label) const;

    const Instance& instance_;
    const Grid& grid_;
    Reach reach_;
    const GuillotineTable<double>& table_;
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
    std::int64_t needed_ = 0;                ///< of the label at hand, outside taken off
    std::vector<std::vector<Label>> labels_; ///< of each state, most reduced value first
    std::int64_t steps_ = 0;                 ///< not yet told to the meter
    std::vector<Label> current_;             ///< of the state at hand, most worth first
};

} // namespace barrow::layout
