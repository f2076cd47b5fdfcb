#pragma once

#include "base/wide.hpp"
#include "layout/effort/meter.hpp"
#include "layout/effort/random.hpp"
#include "layout/sheets/pattern_pool.hpp"
#include "layout/tree/insertion.hpp"
#include "layout/tree/solution.hpp"

#include <vector>

namespace barrow::layout {

/// Goal-driven ruin and recreate (after Gardeyn & Wauters, EJOR 301 (2022) 432-444): the cost of
/// the sheets is capped below the best known; pieces that no longer fit wait outside; parts of the
/// sheets are removed and reinserted until nothing waits. An item can go beside any node of a
/// SlicingTree, not only into free rectangles. Kinds that have waited long weigh more (penalties as
/// in guided local search: Voudouris & Tsang, EJOR 113 (1999) 469-499), so that the search leaves
/// states where the same item is always left over.
class RuinRecreate {
public:
    RuinRecreate(const Instance& instance, std::uint64_t seed, Meter& meter);

    /// Starts from an answer, complete or not.
    void start(const Solution& solution);

    /// Adds the well filled sheets it meets to the pool, which must outlive it.
    void collect(PatternPool& patterns) { patterns_ = &patterns; }

    /// Searches for an answer that costs at most `limit` until the steps are spent or the meter is
    /// over; true when found.
    bool search(Cost limit, std::int64_t steps);

    /// The last answer found (or the one started from).
    Solution solution() const;

private:
    static constexpr std::size_t none = SIZE_MAX;

    struct Bin {
        std::size_t kind = 0; ///< none: the sheet is given back
        SlicingTree tree;
        /// Kinds known not to fit. Stays true until something is removed, since adding never makes
        /// room.
        std::vector<bool> barred;

        bool bars(std::int32_t item) const {
            return !barred.empty() && barred[static_cast<std::size_t>(item)];
        }
        void bar(std::int32_t item, std::size_t kinds) {
            barred.resize(kinds, false);
            barred[static_cast<std::size_t>(item)] = true;
        }
    };

    void keep_below(Cost limit);
    void iterate();
    void ruin();
    void ruin_bin(std::size_t bin, std::int32_t removals);
    void give_back(std::size_t bin);
    void put_in_pool();
    void weigh_alike();
    void weigh_again();
    void sum_waiting();
    bool affords(std::size_t kind, const Bin& bin) const;
    void exchange(std::size_t bin, std::size_t kind);
    void exchange_at_random(std::size_t bin);
    void make_cheap(std::size_t bin);
    void save(std::size_t bin);
    void recreate();
    bool place(std::int32_t kind);
    bool open_for(std::int32_t kind);
    void restore();
    void close(std::size_t bin);
    std::int64_t free_area(const Bin& bin) const;
    bool several_kinds() const { return instance_.sheets.size() > 1; }
    base::Wide burden() const;
    void price_waiting(Cost limit);
    void save_money();
    void show_patterns();

    const Instance& instance_;
    Random random_;
    PatternPool* patterns_ = nullptr;
    Meter& meter_;
    Cost limit_ = 0;
    Cost cost_ = 0;
    std::vector<Bin> bins_;
    std::vector<std::int64_t> copies_;
    std::vector<std::int64_t> pool_;    ///< waiting, by kind
    std::vector<std::int64_t> weight_;  ///< of a kind's area, per mille
    std::vector<base::Wide> burden_of_; ///< weighted area of one piece, by kind
    base::Wide waiting_ = 0;            ///< burden of everything that waits

    std::vector<std::pair<std::size_t, Bin>> saved_;
    std::size_t saved_count_ = 0;
    std::size_t bins_before_ = 0;
    std::vector<std::int64_t> pool_before_;
    base::Wide waiting_before_ = 0;
    Cost cost_before_ = 0;

    Fit fit_ = Fit::area;
    std::vector<std::int64_t> free_;  ///< free area of each bin, while items are placed
    std::vector<base::Wide> history_; ///< of burden()
    base::Wide waiting_price_ = 0;    ///< price of area, in units of 1 / price_unit
    std::size_t round_ = 0;
    std::vector<std::int32_t> removed_;
    std::vector<std::pair<std::int64_t, std::int32_t>> order_;
};

} // namespace barrow::layout
