#pragma once

#include "layout/columns/pricing.hpp"

#include <vector>

namespace barrow::layout {

/// Pricing of lengths with one kind of sheet: the bounded knapsack as a list of undominated
/// (length, worth), kinds with the greatest worth per length first (Martello & Toth, Knapsack
/// Problems, 1990, 2.6 and 3). Entries are dropped whose fractional completion is worth no more
/// than the best known. Near the LP's answer few entries stay, however long the sheet; where they
/// become too many, LinePricing takes over.
class BarPricing : public Pricing {
public:
    /// `most_made`: most entries of a run.
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
    /// The origin of an entry: a bundle added to an earlier entry.
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
    bool by_table_ = false; ///< the last run used LinePricing
    std::int64_t least_ = 0;
    std::int64_t best_ = 0;
    std::int32_t best_made_ = -1;
    std::vector<Bundle> bundles_;       ///< densest first
    std::vector<std::int64_t> lengths_; ///< of all bundles before each
    std::vector<std::uint64_t>
        worths_; ///< worth of all bundles before each, modulo 2^64: only differences count
    std::vector<Length> shortest_; ///< of each bundle and those after it
    std::vector<Entry> list_;      ///< in ascending order of both length and worth
    std::vector<Entry> next_;
    std::vector<Made> made_;
    std::int64_t steps_ = 0;
};

} // namespace barrow::layout
