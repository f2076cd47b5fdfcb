#pragma once

#include "layout/lp/linear_program.hpp"
#include "layout/search/meter.hpp"
#include "layout/table/guillotine_table.hpp"

#include <memory>
#include <set>
#include <vector>

namespace barrow::layout {

/// The pattern LP of least_cost (Gilmore & Gomory): sheets cut by patterns, each kind of item at
/// least as often as wanted, each kind of sheet at most as often as at hand. Columns come from
/// outside and from pricing by GuillotineTable; the bound is the Lagrangian one and exact: prices
/// are rounded to whole numbers, the table finds the true best value of every sheet for them, and
/// the bound is computed from those in 128-bit integers, whatever the LP solver did.
class PatternLp {
public:
    /// Grid and instance must outlive it.
    PatternLp(const Instance& instance, const Grid& grid, Meter& meter);

    /// Makes a pattern known. Needed: patterns that together make a feasible answer.
    void add(const Pattern& pattern);

    /// Generates columns until no better one exists, the bound reaches `target`, the steps are
    /// spent or the meter is over. Answers whether the LP was solved to its end.
    bool generate(Cost target, std::int64_t steps);

    /// Proven: no answer costs less.
    Cost bound() const { return bound_; }

    struct Column {
        std::size_t sheet = 0;
        std::vector<std::pair<std::int32_t, std::int64_t>> counts;
        Block block;
    };
    const std::vector<Column>& columns() const { return columns_; }
    /// Use of a column in the last LP answer.
    double use(std::size_t column) const { return lp_->column(static_cast<std::int32_t>(column)); }
    std::int64_t rounds() const { return rounds_; }

private:
    bool price();
    void tighten(const std::vector<std::int32_t>& prices, double scale);

    const Instance& instance_;
    Meter& meter_;
    GuillotineTable<std::int32_t> table_;
    std::unique_ptr<LinearProgram> lp_;
    std::vector<Column> columns_;
    std::set<std::pair<std::size_t, std::vector<std::pair<std::int32_t, std::int64_t>>>> known_;
    Cost step_ = 1; ///< all costs are multiples of it
    Cost bound_ = 0;
    std::int64_t rounds_ = 0;
};

} // namespace barrow::layout
