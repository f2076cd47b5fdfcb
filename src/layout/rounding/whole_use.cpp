#include "layout/rounding/whole_use.hpp"
#include "layout/lp/linear_program.hpp"

#include <algorithm>
#include <cmath>

namespace barrow::layout {
namespace {

constexpr int most_discrepancies = 8;

} // namespace

/// Solves the LP within the limits; true when whole answers that cost at most the limit are
/// possible.
bool WholeUse::affordable() {
    if (!lp_.resolve()) return false;
    const auto limit = static_cast<double>(limit_);
    return lp_.cost() <= limit + nearly * std::max(1.0, limit);
}

/// The fractional column closest below a whole number; none: the number of columns.
std::size_t WholeUse::nearest() const {
    std::size_t chosen = limits_.size();
    double least = 1 - nearly;
    for (std::size_t column = 0; column < limits_.size(); ++column) {
        const double missing = std::ceil(lp_.use(column)) - lp_.use(column);
        if (missing <= nearly || missing >= least) continue;
        least = missing - nearly;
        chosen = column;
    }
    return chosen;
}

bool covers(const Instance& instance, const PatternLp& lp, const std::vector<std::int64_t>& uses) {
    std::vector<std::int64_t> made(instance.items.size(), 0);
    std::vector<std::int64_t> used(instance.sheets.size(), 0);
    for (std::size_t column = 0; column < uses.size(); ++column) {
        const PatternLp::Column& pattern = lp.columns()[column];
        used[pattern.sheet] += uses[column];
        for (const auto& [kind, count] : pattern.counts)
            made[static_cast<std::size_t>(kind)] += count * uses[column];
    }
    for (std::size_t i = 0; i < made.size(); ++i)
        if (made[i] < instance.items[i].demand) return false;
    for (std::size_t s = 0; s < used.size(); ++s)
        if (used[s] > instance.sheets[s].copies) return false;
    return true;
}

Solution answer_of_uses(const Instance& instance, const PatternLp& lp,
                        const std::vector<std::int64_t>& uses) {
    Solution solution;
    solution.unplaced.assign(instance.items.size(), 0);
    for (std::size_t column = 0; column < uses.size(); ++column) {
        if (uses[column] == 0) continue;
        const PatternLp::Column& from = lp.columns()[column];
        solution.patterns.push_back({from.sheet, uses[column], from.block});
        solution.cost += uses[column] * instance.sheets[from.sheet].cost;
    }
    return solution;
}

void WholeUse::keep() {
    std::vector<std::int64_t> uses;
    Cost cost = 0;
    for (std::size_t column = 0; column < limits_.size(); ++column) {
        uses.push_back(std::llround(lp_.use(column)));
        cost += uses.back() * instance_.sheets[lp_.columns()[column].sheet].cost;
    }
    if (cost > limit_ || !covers(instance_, lp_, uses)) return;
    best_ = std::move(uses);
    limit_ = cost - lp_.step();
    done_ = cost <= enough_;
    meter_.found(cost);
}

void WholeUse::descend(int discrepancies) {
    if (over() || !affordable()) return;
    const std::size_t column = nearest();
    if (column == limits_.size()) return keep();
    const PatternLp::Uses before = limits_[column];
    const double up = std::ceil(lp_.use(column));
    limits_[column].least = up;
    lp_.limit(column, limits_[column]);
    descend(discrepancies);
    if (discrepancies > 0 && !over()) {
        limits_[column] = {before.least, up - 1};
        lp_.limit(column, limits_[column]);
        descend(discrepancies - 1);
    }
    limits_[column] = before;
    lp_.limit(column, before);
}

std::optional<Solution> WholeUse::run(Cost limit, Cost enough, std::int64_t steps) {
    limit_ = limit;
    enough_ = enough;
    end_ = meter_.steps() + steps;
    done_ = false;
    best_.clear();
    limits_.assign(lp_.columns().size(), {});
    lp_.want_all();
    // Paths with fewer discrepancies are repeated with more: cheap, as their number grows quickly.
    for (int discrepancies = 0; discrepancies <= most_discrepancies && !over(); ++discrepancies)
        descend(discrepancies);
    if (best_.empty()) return {};
    Solution solution = answer_of_uses(instance_, lp_, best_);
    take_out_surplus(instance_, solution);
    return solution;
}

} // namespace barrow::layout
