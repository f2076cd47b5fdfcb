#include "bounds/share_lp.hpp"

#include "base/wide.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace barrow::layout {
namespace {

using base::Wide;
using Axis = ShareCosts::Axis;

/// Shares of one job beyond which they are too many.
constexpr std::size_t most_cells = 200'000;
/// Sums stay far below 2^63 with costs and their sums below this, in parts of a unit.
constexpr std::int64_t most_cost = std::int64_t{1} << 54;
/// Worth of all that is wanted of a job, likewise.
constexpr Wide most_worth = Wide{1} << 60;
/// Prices are counted in parts of so many to the unit of cost.
constexpr std::int64_t unit = 1'024;

} // namespace

ShareLp::ShareLp(const JointQuestion& question, const JointLp& lp, std::int64_t work)
    : question_(question), lp_(lp), steps_left_(work * 1'000) {}

Cost ShareLp::bound() {
    if (!set_out()) return 0;
    build();
    Cost bound = 0;
    while (steps_left_ > 0 && program_->solve() && price(bound)) {
    }
    return bound;
}

bool ShareLp::set_out() {
    find_homes();
    for (std::size_t j = 0; j < question_.jobs.size(); ++j)
        if (!add_job(j)) return false;
    return !jobs_.empty();
}

void ShareLp::find_homes() {
    for (const JointChoice& choice : question_.choices) {
        std::vector<std::size_t> homes;
        bool one_each = true;
        for (const auto& option : choice.options) {
            one_each = one_each && !option.empty();
            for (const JointPiece& ask : option) {
                one_each = one_each && ask.job == option.front().job;
                homes.push_back(ask.job);
            }
        }
        const std::size_t c = homes_.size();
        homes.erase(std::remove_if(homes.begin(), homes.end(),
                                   [&](std::size_t job) { return !lp_.may_fall(c, job); }),
                    homes.end());
        std::sort(homes.begin(), homes.end());
        homes.erase(std::unique(homes.begin(), homes.end()), homes.end());
        if (!one_each) homes.clear();
        homes_.push_back(std::move(homes));
    }
}

bool ShareLp::add_job(std::size_t j) {
    std::vector<Axis> axes;
    std::size_t cells = 1;
    for (std::size_t c = 0; c < homes_.size(); ++c) {
        if (!std::binary_search(homes_[c].begin(), homes_[c].end(), j)) continue;
        const std::int64_t times = question_.choices[c].times;
        axes.push_back({c, homes_[c].size() == 1 ? times : 0, times});
        cells *= static_cast<std::size_t>(axes.back().size());
        if (cells > most_cells) return false;
    }
    if (axes.empty()) return true;
    Job job{j, ShareCosts(axes, limits_of(j, axes))};
    rule(job);
    if (job.costs.dearest() > most_cost / unit) return false;
    jobs_.push_back(std::move(job));
    return true;
}

/// Limits that count all that falls to this job of the choices they name, and nothing else.
std::vector<ShareCosts::Limit> ShareLp::limits_of(std::size_t j,
                                                  const std::vector<Axis>& axes) const {
    std::vector<ShareCosts::Limit> limits;
    for (const JointLimit& limit : question_.limits) {
        std::map<std::pair<std::size_t, std::size_t>, std::int64_t> weights;
        for (const JointLimit::Term& term : limit.terms)
            weights[{term.choice, term.option}] += term.weight;
        ShareCosts::Limit own{{}, limit.most};
        for (const Axis& axis : axes) {
            std::optional<std::int64_t> least; // of the options that lie with this job
            const auto& options = question_.choices[axis.choice].options;
            for (std::size_t o = 0; o < options.size(); ++o) {
                if (options[o].front().job != j) continue;
                const auto weight = weights.find({axis.choice, o});
                const std::int64_t counts = weight == weights.end() ? 0 : weight->second;
                least = least ? std::min(*least, counts) : counts;
            }
            own.weights.push_back(least.value_or(0));
        }
        if (std::any_of(own.weights.begin(), own.weights.end(), [](auto w) { return w > 0; }))
            limits.push_back(std::move(own));
    }
    return limits;
}

void ShareLp::rule(Job& job) {
    for (const JointLp::Ruling& ruling : lp_.rulings(job.number)) {
        std::vector<std::int64_t> weights;
        Wide enough = 0;
        for (const Axis& axis : job.costs.axes()) {
            weights.push_back(lp_.least_worth(axis.choice, job.number, ruling).value_or(0));
            enough += Wide(weights.back()) * axis.most;
        }
        if (enough == 0 || enough > most_worth) continue;
        const auto stairs =
            stairs_of(lp_.sheets(job.number), ruling.best, static_cast<std::int64_t>(enough));
        if (!stairs.empty()) job.costs.rule(weights, stairs);
        steps_left_ -= static_cast<std::int64_t>(job.costs.cells());
    }
}

/// Rows: choices, then jobs. What is not dealt out at all costs more than anything.
void ShareLp::build() {
    std::vector<LinearProgram::Row> rows;
    for (const JointChoice& choice : question_.choices)
        rows.push_back({static_cast<double>(choice.times), LinearProgram::infinite});
    for (std::size_t j = 0; j < jobs_.size(); ++j) rows.push_back({-LinearProgram::infinite, 1});
    program_.emplace(rows);
    Cost dearest = 1;
    for (const Job& job : jobs_) dearest = std::max(dearest, job.costs.dearest());
    for (std::size_t c = 0; c < question_.choices.size(); ++c)
        program_->add_column(4.0 * static_cast<double>(dearest),
                             {{static_cast<std::int32_t>(c), 1.0}});
}

/// False when it is there already.
bool ShareLp::add_share(std::size_t j, const ShareCosts::Least& share) {
    if (!known_.emplace(j, share.falls).second) return false;
    std::vector<Entry> entries;
    const auto& axes = jobs_[j].costs.axes();
    for (std::size_t a = 0; a < axes.size(); ++a)
        if (share.falls[a] > 0)
            entries.push_back(
                {static_cast<std::int32_t>(axes[a].choice), static_cast<double>(share.falls[a])});
    entries.push_back({static_cast<std::int32_t>(question_.choices.size() + j), 1.0});
    program_->add_column(static_cast<double>(share.cost), entries);
    return true;
}

/// The best share of every job at the prices, and the bound they prove. False when there was
/// nothing to add.
bool ShareLp::price(Cost& bound) {
    std::vector<std::int64_t> prices;
    Wide sum = 0;
    for (std::size_t c = 0; c < question_.choices.size(); ++c) {
        const double dual = homes_[c].empty() ? 0 : program_->dual(static_cast<std::int32_t>(c));
        const auto most = static_cast<double>(most_cost) / 1'000;
        prices.push_back(std::llround(std::clamp(dual * unit, 0.0, most)));
        sum += Wide(prices.back()) * question_.choices[c].times;
    }
    bool found = false;
    for (std::size_t j = 0; j < jobs_.size(); ++j) {
        std::vector<std::int64_t> earnings;
        for (const Axis& axis : jobs_[j].costs.axes()) earnings.push_back(prices[axis.choice]);
        const auto share = jobs_[j].costs.least(earnings, unit);
        steps_left_ -= static_cast<std::int64_t>(jobs_[j].costs.cells());
        if (!share) return false; // the job cannot do what falls to it alone
        sum += share->sum;
        const double rent = program_->dual(static_cast<std::int32_t>(question_.choices.size() + j));
        if (static_cast<double>(share->sum) / unit >= rent - 1e-6 * std::max(1.0, program_->cost()))
            continue;
        found = add_share(j, *share) || found;
    }
    if (sum > 0) bound = std::max(bound, static_cast<Cost>(base::divide_up(sum, unit)));
    return found;
}

} // namespace barrow::layout
