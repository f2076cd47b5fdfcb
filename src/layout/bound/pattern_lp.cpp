#include "layout/bound/pattern_lp.hpp"

#include "base/wide.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace barrow::layout {

using base::Wide;

PatternLp::PatternLp(const Instance& instance, const Grid& grid, Meter& meter)
    : instance_(instance), meter_(meter), table_(instance, grid) {
    std::vector<LinearProgram::Row> rows;
    for (const Item& item : instance.items)
        rows.push_back({static_cast<double>(item.demand), LinearProgram::infinite});
    for (const Sheet& sheet : instance.sheets)
        rows.push_back({-LinearProgram::infinite, sheet.copies == unlimited
                                                      ? LinearProgram::infinite
                                                      : static_cast<double>(sheet.copies)});
    lp_ = std::make_unique<LinearProgram>(rows);
    step_ = 0;
    for (const Sheet& sheet : instance.sheets) step_ = std::gcd(step_, sheet.cost);
    step_ = std::max<Cost>(step_, 1);
}

void PatternLp::add(const Pattern& pattern) {
    std::vector<std::int64_t> counts(instance_.items.size(), 0);
    count_items(pattern.block, counts);
    Column column{pattern.sheet, {}, pattern.block};
    std::vector<Entry> entries;
    for (std::size_t i = 0; i < counts.size(); ++i) {
        if (counts[i] == 0) continue;
        column.counts.emplace_back(static_cast<std::int32_t>(i), counts[i]);
        entries.push_back({static_cast<std::int32_t>(i), static_cast<double>(counts[i])});
    }
    if (!known_.emplace(column.sheet, column.counts).second) return;
    entries.push_back({static_cast<std::int32_t>(counts.size() + pattern.sheet), 1.0});
    lp_->add_column(static_cast<double>(instance_.sheets[pattern.sheet].cost), entries);
    columns_.push_back(std::move(column));
}

/// Lagrangian bound at prices p/scale: sum of d p less, for sheets of limited number, what the
/// best pattern brings beyond the sheet's cost; unlimited ones must not bring more than they cost,
/// so all prices are shrunk by the worst ratio (Farley, Oper. Res. 38 (1990) 922-923).
void PatternLp::tighten(const std::vector<std::int32_t>& prices, double scale) {
    Wide income = 0;
    for (std::size_t i = 0; i < prices.size(); ++i)
        income += Wide(prices[i]) * instance_.items[i].demand;
    // Prices count in units of 1/unit: whole, so that all that follows is exact.
    const auto unit = static_cast<std::int64_t>(std::floor(scale));
    if (unit < 1) return;
    // Shrink factor numerator / denominator, at most 1.
    Wide over = unit;
    Wide under = unit;
    for (const Sheet& sheet : instance_.sheets) {
        if (sheet.copies != unlimited) continue;
        const Wide value = table_.best(sheet);
        const Wide cost = Wide(sheet.cost) * unit;
        if (value * over > cost * under) { // cost/value is the smaller ratio
            over = cost;
            under = value;
        }
    }
    if (over == 0) return;
    Wide rent = 0;
    for (const Sheet& sheet : instance_.sheets) {
        if (sheet.copies == unlimited) continue;
        const Wide gain = Wide(table_.best(sheet)) * over - Wide(sheet.cost) * unit * under;
        if (gain > 0) rent += gain * sheet.copies;
    }
    const Wide number = income * over - rent;
    if (number <= 0) return;
    const Wide bound = base::divide_up(number, under * unit);
    bound_ = std::max(bound_, static_cast<Cost>(base::divide_up(bound, step_) * step_));
}

bool PatternLp::price() {
    const std::size_t kinds = instance_.items.size();
    std::vector<double> duals(kinds);
    for (std::size_t i = 0; i < kinds; ++i)
        duals[i] = std::max(0.0, lp_->dual(static_cast<std::int32_t>(i)));
    const double scale = table_.safe_scale(duals, 1e15);
    // A power of two would be kind to the rounding; a whole number is what exactness needs.
    const double unit = std::max(1.0, std::floor(scale));
    std::vector<std::int32_t> prices(kinds);
    for (std::size_t i = 0; i < kinds; ++i)
        prices[i] = static_cast<std::int32_t>(std::floor(duals[i] * unit));
    table_.run(prices);
    meter_.spend(table_.steps());
    tighten(prices, unit);
    bool found = false;
    for (std::size_t s = 0; s < instance_.sheets.size(); ++s) {
        const Sheet& sheet = instance_.sheets[s];
        const double value = table_.best(sheet) / unit;
        const double rent = lp_->dual(static_cast<std::int32_t>(kinds + s));
        const auto cost = static_cast<double>(sheet.cost);
        if (value <= cost - rent + 1e-7 * std::max(1.0, cost)) continue;
        const std::size_t before = columns_.size();
        add({s, 1, table_.block(sheet)});
        found = found || columns_.size() > before;
    }
    return found;
}

bool PatternLp::generate(Cost target, std::int64_t steps) {
    const std::int64_t end = meter_.steps() + steps;
    while (bound_ < target) {
        if (meter_.over() || meter_.steps() >= end) return false;
        ++rounds_;
        const std::int64_t before = lp_->iterations();
        if (!lp_->solve()) return false;
        meter_.spend((lp_->iterations() - before) * static_cast<std::int64_t>(columns_.size()) * 20
                     + 50'000);
        if (!price()) return true;
    }
    return false;
}

} // namespace barrow::layout
