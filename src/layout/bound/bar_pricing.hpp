#pragma once

#include "layout/bound/pricing.hpp"

#include <vector>

namespace barrow::layout {

/// In one dimension with one kind of sheet: the bounded knapsack as a list of (length used, worth)
/// none of which is both longer and worth no more than another, kinds worth most for their length
/// first (Martello & Toth, Knapsack Problems, 1990, 2.6 and 3). Entries go that could not be worth
/// more than what is known, filled up with whatever is left at its worth for length, cut where the
/// room ends. Next to the LP's answer few entries stay, whatever the length of the sheet; where
/// they become too many after all, LinePricing does the work.
class BarPricing : public Pricing {
public:
    /// `most_made`: entries that may come about in a run.
    BarPricing(const Instance& instance, const Grid& grid, std::size_t most_made = 4'000'000)
        : instance_(instance), table_(instance, grid), most_made_(most_made) {}

    double scale_for(const std::vector<double>& prices) const override;
    void care_above(std::int64_t value) override { least_ = value; }
    void run(const std::vector<std::int64_t>& prices,
             const std::vector<std::int64_t>& most) override;
    bool several() const override { return true; }
    std::int64_t best(std::size_t sheet) const override {
        return by_table_ ? table_.best(sheet) : best_;
    }
    Block block(std::size_t sheet) const override;
    std::int64_t steps() const override { return steps_; }

private:
    struct Bundle {
        std::size_t kind = 0;
        std::int64_t copies = 0;
        Length length = 0;
        std::int64_t worth = 0;
        std::int64_t density = 0; ///< worth of a unit of length, rounded up
    };
    struct Entry {
        Length used = 0;
        std::int64_t worth = 0;
        std::int32_t made = -1; ///< index in made_; -1: empty
    };
    /// How an entry came about: a bundle put to an earlier one.
    struct Made {
        std::int32_t bundle = 0;
        std::int32_t from = -1;
    };

    void bundle_up(const std::vector<std::int64_t>& prices, const std::vector<std::int64_t>& most);
    void put_in(std::size_t bundle);
    void drop_hopeless(std::size_t next);

    const Instance& instance_;
    LinePricing table_;
    std::size_t most_made_ = 0;
    bool by_table_ = false; ///< the last run
    std::int64_t least_ = 0;
    std::int64_t best_ = 0;
    std::int32_t best_made_ = -1;
    std::vector<Bundle> bundles_;       ///< densest first
    std::vector<std::int64_t> lengths_; ///< of all bundles before each
    std::vector<std::uint64_t> worths_; ///< likewise; modulo 2^64, as only differences count
    std::vector<Length> shortest_;      ///< of each bundle and those after it
    std::vector<Entry> list_;           ///< in ascending order of both length and worth
    std::vector<Entry> next_;
    std::vector<Made> made_;
    std::int64_t steps_ = 0;
};

} // namespace barrow::layout
