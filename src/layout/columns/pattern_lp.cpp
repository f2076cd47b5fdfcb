#include "layout/columns/pattern_lp.hpp"

#include "base/wide.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace barrow::layout {

using base::Wide;

namespace {

constexpr int most_beside = 20; // found by trial

} // namespace

PatternLp::PatternLp(const Instance& instance, Meter& meter) : instance_(instance), meter_(meter) {
    std::vector<LinearProgram::Row> rows;
    for (const Item& item : instance.items) {
        rows.push_back({static_cast<double>(item.demand), LinearProgram::infinite});
        left_.push_back(item.demand);
    }
    double dearest = 1;
    for (const Sheet& sheet : instance.sheets) {
        rows.push_back({-LinearProgram::infinite, sheet.copies == unlimited
                                                      ? LinearProgram::infinite
                                                      : static_cast<double>(sheet.copies)});
        dearest = std::max(dearest, static_cast<double>(sheet.cost));
    }
    lp_ = std::make_unique<LinearProgram>(rows);
    // Leaving an item out costs more than any sheet for it.
    for (std::size_t i = 0; i < instance.items.size(); ++i)
        lp_->add_column(20 * dearest, {{static_cast<std::int32_t>(i), 1.0}});
    step_ = 0;
    for (const Sheet& sheet : instance.sheets) step_ = std::gcd(step_, sheet.cost);
    step_ = std::max<Cost>(step_, 1);
}

bool PatternLp::add(std::size_t sheet, const Block& block) {
    std::vector<std::int64_t> counts(instance_.items.size(), 0);
    count_items(block, counts);
    Column column{sheet, {}, block};
    std::vector<Entry> entries;
    for (std::size_t i = 0; i < counts.size(); ++i) {
        if (counts[i] == 0) continue;
        column.counts.emplace_back(static_cast<std::int32_t>(i), counts[i]);
        entries.push_back({static_cast<std::int32_t>(i), static_cast<double>(counts[i])});
    }
    if (!known_.emplace(sheet, column.counts).second) return false;
    entries.push_back({static_cast<std::int32_t>(counts.size() + sheet), 1.0});
    lp_->add_column(static_cast<double>(instance_.sheets[sheet].cost), entries);
    columns_.push_back(std::move(column));
    return true;
}

/// Lagrangian bound at prices p/unit for this demand: the sum of demand times price, less what the
/// best patterns of limited sheets are worth beyond the sheet's cost. Patterns of unlimited sheets
/// must not be worth more than the sheet, so all prices are shrunk by the worst ratio (Farley,
/// Oper. Res. 38 (1990) 922-923).
PatternLp::Least PatternLp::least_for(const std::vector<std::int64_t>& wanted,
                                      const Pricing& pricing,
                                      const std::vector<std::int64_t>& prices,
                                      std::int64_t unit) const {
    Wide income = 0;
    for (std::size_t i = 0; i < prices.size(); ++i) income += Wide(prices[i]) * wanted[i];
    // Shrink factor numerator / denominator, at most 1.
    Wide over = unit;
    Wide under = unit;
    for (std::size_t s = 0; s < instance_.sheets.size(); ++s) {
        const Sheet& sheet = instance_.sheets[s];
        if (sheet.copies != unlimited) continue;
        const Wide value = pricing.proven(s);
        const Wide cost = Wide(sheet.cost) * unit;
        if (value * over > cost * under) { // cost/value is the smaller ratio
            over = cost;
            under = value;
        }
    }
    Wide rent = 0;
    for (std::size_t s = 0; s < instance_.sheets.size(); ++s) {
        const Sheet& sheet = instance_.sheets[s];
        if (sheet.copies == unlimited) continue;
        const Wide gain = Wide(pricing.proven(s)) * over - Wide(sheet.cost) * unit * under;
        if (gain > 0) rent += gain * sheet.copies;
    }
    return {income * over - rent, under * unit};
}

void PatternLp::tighten(const std::vector<std::int64_t>& prices, std::int64_t unit) {
    std::vector<std::int64_t> demands;
    for (const Item& item : instance_.items) demands.push_back(item.demand);
    const Least least = least_for(demands, *pricing_, prices, unit);
    if (least.number <= 0) return;
    if (least.rough() > proven_) {
        proven_ = least.rough();
        proof_ = prices;
    }
    const Wide bound = base::divide_up(least.number, least.units);
    bound_ = std::max(bound_, static_cast<Cost>(base::divide_up(bound, step_) * step_));
}

/// Prices the duals of the LP; true when a better column was found. `whole`: the prices are those
/// of the whole demand, so that they prove a bound.
bool PatternLp::price(bool whole) {
    if (helper_ != nullptr && price_with(*helper_, false)) return true;
    return price_with(*pricing_, whole && proves_);
}

bool PatternLp::price_with(Pricing& pricing, bool whole) {
    const std::size_t kinds = instance_.items.size();
    std::vector<double> duals(kinds);
    for (std::size_t i = 0; i < kinds; ++i)
        duals[i] = std::max(0.0, lp_->dual(static_cast<std::int32_t>(i)));
    const double scale = pricing.scale_for(duals);
    if (scale < 1) return false;
    // Prices are whole numbers of 1/unit, so that the bound is exact.
    const auto unit = static_cast<std::int64_t>(scale);
    std::vector<std::int64_t> prices(kinds);
    for (std::size_t i = 0; i < kinds; ++i)
        prices[i] = static_cast<std::int64_t>(std::floor(duals[i] * scale));
    // A pattern worth no more than its sheet does not lower the bound and is no column.
    const base::Wide cost_in_units = Wide(instance_.sheets.front().cost) * unit;
    pricing.care_above(base::narrow(cost_in_units).value_or(0));
    pricing.run(prices, left_);
    meter_.spend(pricing.steps());
    if (whole) tighten(prices, unit);
    least_ = pricing.dear() ? least_for(left_, pricing, prices, unit).rough() : 0;
    bool found = false;
    for (std::size_t s = 0; s < instance_.sheets.size(); ++s)
        found = add_best(pricing, s, scale) || found;
    if (found && pricing.several()) add_beside(pricing, prices, scale);
    return found;
}

/// The best pattern of the sheet, if it would improve the LP.
bool PatternLp::add_best(const Pricing& pricing, std::size_t sheet, double scale) {
    const double value = static_cast<double>(pricing.best(sheet)) / scale;
    const double rent = this->rent(sheet);
    const auto cost = static_cast<double>(instance_.sheets[sheet].cost);
    if (value <= cost - rent + 1e-7 * std::max(1.0, cost)) return false;
    return add(sheet, rebuilt(instance_, pricing.block(sheet)));
}

/// After the best pattern, used as often as possible, the best of what is left, and so on: an
/// answer needs patterns that go together, and the LP is solved less often.
void PatternLp::add_beside(Pricing& pricing, const std::vector<std::int64_t>& prices,
                           double scale) {
    std::vector<std::int64_t> left = left_;
    for (int more = 0; more < most_beside; ++more) {
        const auto& counts = columns_.back().counts;
        std::int64_t times = INT64_MAX;
        for (const auto& [kind, count] : counts)
            times = std::min(times, left[static_cast<std::size_t>(kind)] / count);
        for (const auto& [kind, count] : counts)
            left[static_cast<std::size_t>(kind)] -= count * times;
        pricing.run(prices, left);
        meter_.spend(pricing.steps());
        if (!add_best(pricing, 0, scale)) return;
    }
}

bool PatternLp::solve() {
    ++rounds_;
    const std::int64_t before = lp_->iterations();
    const bool solved = lp_->solve();
    meter_.spend((lp_->iterations() - before) * static_cast<std::int64_t>(columns_.size()) * 20
                 + 50'000);
    return solved;
}

std::vector<std::int64_t> PatternLp::whole_uses(int nodes, Cost limit) const {
    std::vector<std::int32_t> all(columns_.size());
    std::iota(all.begin(), all.end(), number(0));
    const std::int64_t before = lp_->iterations();
    const double between = static_cast<double>(limit) + 0.5 * static_cast<double>(step_);
    std::vector<std::int64_t> uses = lp_->in_whole_numbers(all, nodes, 0, between);
    meter_.spend((lp_->iterations() - before) * static_cast<std::int64_t>(columns_.size()) * 20
                 + 1'000'000);
    return uses;
}

PatternLp::End PatternLp::generate(Cost target, std::int64_t steps) {
    const std::int64_t end = meter_.steps() + steps;
    while (bound_ < target) {
        if (meter_.over() || meter_.steps() >= end) return End::spent;
        if (!solve()) return End::failed;
        if (!price(true)) return bound_ < target ? End::optimal : End::reached;
    }
    return End::reached;
}

void PatternLp::want(const std::vector<std::int64_t>& left,
                     const std::vector<std::int64_t>& copies) {
    left_ = left;
    const auto kinds = static_cast<std::int32_t>(left.size());
    for (std::int32_t i = 0; i < kinds; ++i)
        lp_->limit_row(
            i, {static_cast<double>(left[static_cast<std::size_t>(i)]), LinearProgram::infinite});
    for (std::size_t s = 0; s < copies.size(); ++s)
        if (instance_.sheets[s].copies != unlimited)
            lp_->limit_row(kinds + static_cast<std::int32_t>(s),
                           {-LinearProgram::infinite, static_cast<double>(copies[s])});
}

void PatternLp::want_all() {
    std::vector<std::int64_t> left;
    std::vector<std::int64_t> copies;
    for (const Item& item : instance_.items) left.push_back(item.demand);
    for (const Sheet& sheet : instance_.sheets) copies.push_back(sheet.copies);
    want(left, copies);
}

PatternLp::End PatternLp::generate_for(const std::vector<std::int64_t>& left,
                                       const std::vector<std::int64_t>& copies, double limit,
                                       std::int64_t steps) {
    want(left, copies);
    const std::int64_t end = meter_.steps() + steps;
    for (;;) {
        if (!solve()) return End::failed;
        if (lp_->cost() <= limit) return End::optimal;
        if (meter_.over() || meter_.steps() >= end) return End::spent;
        if (!price(false) || least_ > limit) return End::reached;
    }
}

} // namespace barrow::layout
