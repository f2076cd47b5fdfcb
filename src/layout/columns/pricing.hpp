#pragma once

#include "layout/sets/set_shapes.hpp"
#include "layout/table/guillotine_table.hpp"
#include "layout/tree/block.hpp"

#include <vector>

namespace barrow::layout {

/// Finds the best pattern of every sheet at given prices of the items. Exact: whole numbers only. A
/// pricing that may miss the best reports an upper bound by proven().
class Pricing {
public:
    Pricing() = default;
    virtual ~Pricing() = default;
    Pricing(const Pricing&) = delete;
    Pricing& operator=(const Pricing&) = delete;

    /// The greatest whole factor for the prices (before they are rounded down) at which every
    /// sheet's value still fits; below 1 when there is none.
    virtual double scale_for(const std::vector<double>& prices) const = 0;

    /// Prices are at least 0. `most`: copies of each kind allowed in a pattern; a pricing may
    /// ignore it (then relaxed() is true), but leaves out kinds with 0.
    virtual void run(const std::vector<std::int64_t>& prices,
                     const std::vector<std::int64_t>& most) = 0;
    virtual bool relaxed() const { return false; }
    /// For the first sheet, patterns worth no more than this need not be distinguished in later
    /// runs: best() may return `value` for them. May be ignored.
    virtual void care_above(std::int64_t value) { static_cast<void>(value); }
    /// Quick enough to run several times between two LPs, for patterns of what earlier ones left.
    /// Requires one kind of sheet.
    virtual bool several() const { return false; }

    /// Runs are so slow that it pays to test after each whether the next can be saved.
    virtual bool dear() const { return false; }

    virtual std::int64_t best(std::size_t sheet) const = 0;
    /// No pattern is worth more.
    virtual std::int64_t proven(std::size_t sheet) const { return best(sheet); }
    /// A pattern of that value; requires best(sheet) > 0, and above what care_above() said.
    virtual Block block(std::size_t sheet) const = 0;
    /// Steps that the last run took (see Meter).
    virtual std::int64_t steps() const = 0;
};

/// Pricing by GuillotineTable: any instance with a grid; ignores copies.
class TablePricing : public Pricing {
public:
    TablePricing(const Instance& instance, const Grid& grid)
        : instance_(instance), table_(instance, grid) {}

    double scale_for(const std::vector<double>& prices) const override;
    void run(const std::vector<std::int64_t>& prices,
             const std::vector<std::int64_t>& most) override;
    bool relaxed() const override { return true; }
    std::int64_t best(std::size_t sheet) const override {
        return table_.best(instance_.sheets[sheet]);
    }
    Block block(std::size_t sheet) const override { return table_.block(instance_.sheets[sheet]); }
    std::int64_t steps() const override { return table_.steps(); }

private:
    const Instance& instance_;
    GuillotineTable<std::int32_t> table_;
};

/// Pricing of lengths (all items and sheets equally high): the bounded knapsack over the raster,
/// copies in bundles of powers of two. (BarPricing is quicker for one kind of sheet.)
class LinePricing : public Pricing {
public:
    LinePricing(const Instance& instance, const Grid& grid);

    double scale_for(const std::vector<double>& prices) const override;
    void run(const std::vector<std::int64_t>& prices,
             const std::vector<std::int64_t>& most) override;
    std::int64_t best(std::size_t sheet) const override;
    Block block(std::size_t sheet) const override;
    std::int64_t steps() const override { return steps_; }

private:
    struct Bundle {
        std::size_t kind = 0;
        std::int64_t copies = 0;
        std::vector<bool> taken; ///< for each raster point, whether the best there includes it
    };
    void put_in(Bundle& bundle, std::int64_t price);

    const Instance& instance_;
    const Raster& raster_;
    std::vector<std::int64_t> values_; ///< best of each raster point
    std::vector<Bundle> bundles_;
    std::int64_t steps_ = 0;
};

/// Pricing by a scan of all sets of items that fit a sheet.
class SetPricing : public Pricing {
public:
    /// The shapes must be enumerated and outlive it.
    SetPricing(const Instance& instance, const SetShapes& shapes);

    double scale_for(const std::vector<double>& prices) const override;
    void run(const std::vector<std::int64_t>& prices,
             const std::vector<std::int64_t>& most) override;
    std::int64_t best(std::size_t sheet) const override { return best_[sheet].value; }
    Block block(std::size_t sheet) const override;
    std::int64_t steps() const override { return steps_; }

private:
    struct Best {
        std::int64_t value = 0;
        std::size_t set = 0;
    };

    const Instance& instance_;
    const SetShapes& shapes_;
    std::vector<std::pair<std::int32_t, std::int32_t>> counts_; ///< kind and copies, of all sets
    std::vector<std::size_t> begins_;                           ///< of each set in counts_
    std::vector<Best> best_;
    std::int64_t steps_ = 0;
};

} // namespace barrow::layout
