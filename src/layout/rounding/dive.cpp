#include "layout/rounding/dive.hpp"

#include "layout/lengths/completion.hpp"
#include "layout/lp/linear_program.hpp"
#include "layout/sheets/ruin_recreate.hpp"

#include <algorithm>
#include <cmath>

namespace barrow::layout {
namespace {} // namespace

std::int64_t Dive::pieces_left() const {
    std::int64_t sum = 0;
    for (const std::int64_t n : left_) sum += n;
    return sum;
}

void Dive::back_to(const Mark& mark) {
    fixed_.resize(mark.fixed);
    left_ = mark.left;
    copies_ = mark.copies;
    cost_ = mark.cost;
}

/// Fixes at most this many copies, and only useful ones.
bool Dive::fix(std::size_t column, std::int64_t copies) {
    const PatternLp::Column& pattern = lp_.columns()[column];
    std::int64_t useful = 0;
    for (const auto& [kind, count] : pattern.counts) {
        const std::int64_t left = left_[static_cast<std::size_t>(kind)];
        useful = std::max(useful, (left + count - 1) / count);
    }
    copies = std::min({copies, useful, copies_[pattern.sheet]});
    if (copies <= 0) return false;
    for (const auto& [kind, count] : pattern.counts) {
        std::int64_t& left = left_[static_cast<std::size_t>(kind)];
        left = std::max<std::int64_t>(0, left - count * copies);
    }
    copies_[pattern.sheet] -= copies;
    cost_ += copies * instance_.sheets[pattern.sheet].cost;
    fixed_.push_back({column, copies});
    return true;
}

std::vector<std::size_t> Dive::fix_whole() {
    std::vector<Fixed> whole;
    for (std::size_t column = 0; column < lp_.columns().size(); ++column)
        if (const double use = lp_.use(column) + nearly; use >= 1)
            whole.push_back({column, static_cast<std::int64_t>(std::floor(use))});
    std::vector<std::size_t> done;
    for (const Fixed& f : whole)
        if (fix(f.column, f.copies)) done.push_back(f.column);
    return done;
}

/// The share of a column's content, by area, that is still wanted.
double Dive::wanted_share(std::size_t column) const {
    double cut = 0;
    double wanted = 0;
    for (const auto& [kind, count] : lp_.columns()[column].counts) {
        const auto index = static_cast<std::size_t>(kind);
        const auto area = static_cast<double>(instance_.items[index].area());
        cut += area * static_cast<double>(count);
        wanted += area * static_cast<double>(std::min(count, left_[index]));
    }
    return wanted / cut;
}

/// The most used fractional column; content no longer wanted counts strongly against it (exponent
/// found by trial).
std::size_t Dive::most_used() const {
    std::size_t chosen = lp_.columns().size();
    double most = nearly;
    for (std::size_t column = 0; column < lp_.columns().size(); ++column) {
        if (lp_.use(column) <= most) continue;
        const double share = wanted_share(column);
        const double worth = lp_.use(column) * share * share * share * share;
        if (worth <= most) continue;
        most = worth + nearly;
        chosen = column;
    }
    return chosen;
}

/// A random fractional column, with a probability proportional to the cube of its use (found by
/// trial: the use itself picks too many unimportant ones).
std::size_t Dive::used_at_random() {
    constexpr std::int64_t fine = 10'000;
    std::int64_t sum = 0;
    std::vector<std::pair<std::int64_t, std::size_t>> sums;
    for (std::size_t column = 0; column < lp_.columns().size(); ++column) {
        const double use = std::max(0.0, lp_.use(column));
        sum += static_cast<std::int64_t>(use * use * use * fine);
        if (sums.empty() ? sum > 0 : sum > sums.back().first) sums.emplace_back(sum, column);
    }
    if (sums.empty()) return lp_.columns().size();
    const std::int64_t at = random_.below(sum);
    return std::find_if(sums.begin(), sums.end(), [&](const auto& s) { return s.first > at; })
        ->second;
}

/// The instance of what is left.
Instance Dive::rest() const {
    Instance rest = instance_;
    for (std::size_t i = 0; i < left_.size(); ++i) rest.items[i].demand = left_[i];
    for (std::size_t s = 0; s < copies_.size(); ++s) rest.sheets[s].copies = copies_[s];
    return rest;
}

/// Whether a dive succeeds depends on its last few bars, where the LP says little.
bool Dive::finish_bars() {
    if (effort_.bar_steps == 0 || bars_tried_ || pieces_left() > effort_.few_on_bars) return false;
    bars_tried_ = true;
    const Instance rest = this->rest();
    const std::int64_t bars = (limit_ - cost_) / rest.sheets.front().cost;
    auto found = Completion(rest, meter_).run(bars, effort_.bar_steps);
    if (!found) return false;
    rest_ = std::move(*found);
    return true;
}

bool Dive::finish_by_ruin() {
    const std::int64_t pieces = pieces_left();
    if (effort_.ruin_steps == 0 || pieces > ruin_below_) return false;
    if (effort_.seed == 0) ruin_below_ = effort_.ruin_again ? pieces * 3 / 4 : 0;
    const Instance rest = this->rest();
    RuinRecreate search(rest, 1, meter_);
    Solution nothing;
    nothing.unplaced = left_;
    search.start(nothing);
    if (!search.search(limit_ - cost_, effort_.ruin_steps)) return false;
    rest_ = search.solution();
    return true;
}

bool Dive::descend(int discrepancies) {
    if (cost_ > limit_) return false;
    if (pieces_left() == 0) return true;
    if (over()) return false;
    const double room = static_cast<double>(limit_ - cost_);
    const double allowed = room + nearly * std::max(1.0, room);
    const auto end = lp_.generate_for(left_, copies_, allowed, end_ - meter_.steps());
    if (end != PatternLp::End::optimal || over()) return false;
    if (finish_by_ruin() || finish_bars()) return true;
    const Mark before = mark();
    std::vector<std::size_t> chosen = fix_whole();
    if (chosen.empty()) {
        const std::size_t most = effort_.seed == 0 ? most_used() : used_at_random();
        if (most == lp_.columns().size()) return false;
        chosen.push_back(most);
        if (!fix(most, 1)) return false;
    }
    if (descend(discrepancies)) return true;
    back_to(before);
    if (discrepancies == 0 || over()) return false;
    const std::size_t banned = chosen[static_cast<std::size_t>(discrepancies) % chosen.size()];
    lp_.ban(banned);
    ruin_below_ = effort_.few_pieces;
    bars_tried_ = false;
    const bool found = descend(discrepancies - 1);
    lp_.allow(banned);
    return found;
}

Solution Dive::solution() const {
    Solution solution = rest_;
    solution.unplaced.assign(left_.size(), 0);
    solution.cost = rest_.cost + cost_;
    for (const Fixed& fixed : fixed_) {
        const PatternLp::Column& column = lp_.columns()[fixed.column];
        solution.patterns.push_back({column.sheet, fixed.copies, column.block});
    }
    take_out_surplus(instance_, solution);
    return solution;
}

void Dive::begin() {
    left_.clear();
    copies_.clear();
    for (const Item& item : instance_.items) left_.push_back(item.demand);
    for (const Sheet& sheet : instance_.sheets) copies_.push_back(sheet.copies);
    cost_ = 0;
    fixed_.clear();
    rest_ = {};
    ruin_below_ = effort_.few_pieces;
    bars_tried_ = false;
}

std::optional<Solution> Dive::run(Cost limit, const Effort& effort) {
    effort_ = effort;
    limit_ = limit;
    end_ = meter_.steps() + effort.steps;
    random_ = Random(effort.seed);
    for (int discrepancies = 0; discrepancies <= effort.discrepancies && !over(); ++discrepancies) {
        do {
            begin();
            if (descend(discrepancies)) return solution();
        } while (effort.seed != 0 && !over());
    }
    return {};
}

} // namespace barrow::layout
