#pragma once

#include "base/wide.hpp"
#include "layout/columns/pricing.hpp"
#include "layout/effort/meter.hpp"
#include "layout/lp/linear_program.hpp"

#include <memory>
#include <set>
#include <vector>

namespace barrow::layout {

/// The pattern LP of least_cost (Gilmore & Gomory, Oper. Res. 9 (1961) 849-859): each kind of item
/// is cut at least as often as wanted, each kind of sheet used at most as often as available.
/// Columns are added by callers and by a Pricing. The bound is the Lagrangian one and exact: prices
/// are rounded to whole numbers, the pricing finds the true best value of every sheet for them, and
/// the bound is computed from those in 128-bit integers, whatever the LP solver did. Demand and
/// copies can be lowered for a while to search for whole answers.
class PatternLp {
public:
    struct Column {
        std::size_t sheet = 0;
        std::vector<std::pair<std::int32_t, std::int64_t>> counts;
        Block block;
    };

    PatternLp(const Instance& instance, Meter& meter);

    /// Sets the source of columns, which must outlive the LP. One made for an instance rounded up
    /// proves nothing.
    void price_by(Pricing& pricing, bool proves) {
        pricing_ = &pricing;
        proves_ = proves;
    }

    /// Sets a pricing that finds most columns sooner, without proof; asked first.
    void help_by(Pricing& helper) { helper_ = &helper; }

    /// Adds a pattern; true when it is new.
    bool add(std::size_t sheet, const Block& block);

    enum class End {
        optimal, ///< no better column exists
        reached, ///< the bound reached the target
        spent,   ///< out of steps, or the meter is over
        failed   ///< the solver gave up
    };

    /// Generates columns for the whole demand. Every round may raise bound().
    End generate(Cost target, std::int64_t steps);

    /// The same for what is left, without raising bound(). Ends early, as `reached`, when even the
    /// LP costs more than `limit`.
    End generate_for(const std::vector<std::int64_t>& left, const std::vector<std::int64_t>& copies,
                     double limit, std::int64_t steps);

    /// Restores the whole demand and all copies after generate_for.
    void want_all();

    /// Proven: no answer costs less.
    Cost bound() const { return bound_; }
    /// The whole prices, in some unit, that proved the most before rounding up.
    const std::vector<std::int64_t>& proof() const { return proof_; }
    /// Cost of the last LP; more than any sheets cost when some items are left out.
    double cost() const { return lp_->cost(); }
    /// A common divisor of all costs.
    Cost step() const { return step_; }

    const std::vector<Column>& columns() const { return columns_; }
    /// Use of a column in the last LP answer.
    double use(std::size_t column) const { return lp_->column(number(column)); }
    /// Price of one more of an item, and of one more copy of a sheet (negative: what it saves), in
    /// the last LP answer.
    double price_of(std::size_t item) const { return lp_->dual(static_cast<std::int32_t>(item)); }
    double rent(std::size_t sheet) const {
        return lp_->dual(static_cast<std::int32_t>(instance_.items.size() + sheet));
    }
    /// How often a column may be used.
    struct Uses {
        double least = 0;
        double most = LinearProgram::infinite;
    };
    void limit(std::size_t column, const Uses& uses) {
        lp_->limit_column(number(column), uses.least, uses.most);
    }
    /// Solves the LP with its present columns and limits; false when it has no answer.
    bool resolve() { return solve(); }
    /// Whole numbers of uses that cost at most `limit`, if branch and cut finds any within so many
    /// nodes; must be checked before use. Empty: none found.
    std::vector<std::int64_t> whole_uses(int nodes, Cost limit) const;
    void ban(std::size_t column) { lp_->limit_column(number(column), 0, 0); }
    void allow(std::size_t column) {
        lp_->limit_column(number(column), 0, LinearProgram::infinite);
    }
    std::int64_t rounds() const { return rounds_; }

private:
    /// The first columns of the LP stand for items left over.
    std::int32_t number(std::size_t column) const {
        return static_cast<std::int32_t>(column + instance_.items.size());
    }
    bool solve();
    void want(const std::vector<std::int64_t>& left, const std::vector<std::int64_t>& copies);
    bool price(bool whole);
    bool price_with(Pricing& pricing, bool whole);
    bool add_best(const Pricing& pricing, std::size_t sheet, double scale);
    void add_beside(Pricing& pricing, const std::vector<std::int64_t>& prices, double scale);
    /// A cost as a fraction.
    struct Least {
        base::Wide number = 0;
        base::Wide units = 1;
        double rough() const { return static_cast<double>(number) / static_cast<double>(units); }
    };
    Least least_for(const std::vector<std::int64_t>& wanted, const Pricing& pricing,
                    const std::vector<std::int64_t>& prices, std::int64_t unit) const;
    void tighten(const std::vector<std::int64_t>& prices, std::int64_t unit);

    const Instance& instance_;
    Meter& meter_;
    Pricing* pricing_ = nullptr;
    Pricing* helper_ = nullptr;
    bool proves_ = true;
    std::unique_ptr<LinearProgram> lp_;
    std::vector<Column> columns_;
    std::set<std::pair<std::size_t, std::vector<std::pair<std::int32_t, std::int64_t>>>> known_;
    std::vector<std::int64_t> left_;
    Cost step_ = 1;
    Cost bound_ = 0;
    std::vector<std::int64_t> proof_;
    double proven_ = 0; ///< the bound they proved, before rounding up
    std::int64_t rounds_ = 0;
    double least_ = 0; ///< least cost of what is left by the last pricing, where pricing is slow
};

} // namespace barrow::layout
