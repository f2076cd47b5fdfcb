#include "bounds/share_costs.hpp"

#include <algorithm>

namespace barrow::layout {
namespace {

using Stair = ShareCosts::Stair;

/// Beyond that many, stairs are joined.
constexpr std::size_t most_stairs = 2'000;
/// Sums of stairs and copies of one sheet beyond which they are too many to be gone through.
constexpr std::int64_t most_sums = 200'000;

/// Leaves out stairs that bring no more than a cheaper one, and what lies beyond enough.
void tidy(std::vector<Stair>& stairs, std::int64_t enough) {
    std::sort(stairs.begin(), stairs.end(), [](const Stair& a, const Stair& b) {
        return a.cost != b.cost ? a.cost < b.cost : a.brings > b.brings;
    });
    std::vector<Stair> kept;
    for (const Stair& stair : stairs) {
        if (!kept.empty() && (stair.brings <= kept.back().brings || kept.back().brings >= enough))
            continue;
        kept.push_back(stair);
    }
    while (kept.size() > most_stairs) { // two become one, as cheap as one and as good as the other
        std::vector<Stair> fewer;
        for (std::size_t i = 0; i < kept.size(); i += 2)
            fewer.push_back({kept[std::min(i + 1, kept.size() - 1)].brings, kept[i].cost});
        kept = std::move(fewer);
    }
    stairs = std::move(kept);
}

/// So many copies at most of one sheet beside what there is; false when those are too many.
bool add_copies(std::vector<Stair>& stairs, std::int64_t brings, Cost cost, std::int64_t copies,
                std::int64_t enough) {
    const std::int64_t useful = std::min(copies, (enough - 1) / brings + 1);
    if (useful > most_sums / static_cast<std::int64_t>(stairs.size())) return false;
    std::vector<Stair> sums;
    for (const Stair& stair : stairs)
        for (std::int64_t n = 0; n <= useful; ++n) {
            sums.push_back({stair.brings + n * brings, stair.cost + n * cost});
            if (sums.back().brings >= enough) break;
        }
    stairs = std::move(sums);
    tidy(stairs, enough);
    return true;
}

} // namespace

std::vector<Stair> stairs_of(const std::vector<Sheet>& sheets,
                             const std::vector<std::int64_t>& best, std::int64_t enough) {
    std::vector<Stair> stairs = {{0, 0}};
    for (std::size_t s = 0; s < sheets.size(); ++s)
        if (best[s] > 0 && !add_copies(stairs, best[s], sheets[s].cost, sheets[s].copies, enough))
            return {};
    return stairs;
}

ShareCosts::ShareCosts(std::vector<Axis> axes, const std::vector<Limit>& limits)
    : axes_(std::move(axes)) {
    std::size_t cells = 1;
    for (const Axis& axis : axes_) cells *= static_cast<std::size_t>(axis.size());
    costs_.assign(cells, 0);
    for (const Limit& limit : limits)
        each_row([&](std::size_t row, const std::vector<std::int64_t>& falls) {
            std::int64_t counted = 0;
            for (std::size_t a = 0; a < axes_.size(); ++a) counted += falls[a] * limit.weights[a];
            for (std::int64_t n = 0; n < axes_.front().size(); ++n, ++row)
                if (counted + n * limit.weights.front() > limit.most) costs_[row] = never;
        });
}

/// Visits rows along the first axis: their first cell, and its falls.
template <typename Visit>
void ShareCosts::each_row(Visit visit) const {
    const auto length = static_cast<std::size_t>(axes_.front().size());
    std::vector<std::int64_t> falls;
    for (const Axis& axis : axes_) falls.push_back(axis.least);
    for (std::size_t cell = 0; cell < costs_.size(); cell += length) {
        visit(cell, falls);
        for (std::size_t a = 1; a < axes_.size(); ++a) {
            if (++falls[a] <= axes_[a].most) break;
            falls[a] = axes_[a].least;
        }
    }
}

void ShareCosts::rule(const std::vector<std::int64_t>& weights, const std::vector<Stair>& stairs) {
    each_row([&](std::size_t row, const std::vector<std::int64_t>& falls) {
        std::int64_t worth = 0;
        for (std::size_t a = 0; a < axes_.size(); ++a) worth += falls[a] * weights[a];
        std::size_t at = 0;
        for (std::int64_t n = 0; n < axes_.front().size(); ++n, ++row, worth += weights.front()) {
            while (at < stairs.size() && stairs[at].brings < worth) ++at;
            costs_[row] = std::max(costs_[row], at < stairs.size() ? stairs[at].cost : never);
        }
    });
}

Cost ShareCosts::dearest() const {
    Cost most = 0;
    for (const Cost cost : costs_)
        if (cost != never) most = std::max(most, cost);
    return most;
}

std::optional<ShareCosts::Least> ShareCosts::least(const std::vector<std::int64_t>& earnings,
                                                   std::int64_t unit) const {
    std::optional<std::int64_t> best;
    std::size_t where = 0;
    each_row([&](std::size_t row, const std::vector<std::int64_t>& falls) {
        std::int64_t earned = 0;
        for (std::size_t a = 0; a < axes_.size(); ++a) earned += falls[a] * earnings[a];
        const std::size_t end = row + static_cast<std::size_t>(axes_.front().size());
        for (; row < end; ++row, earned += earnings.front()) {
            if (costs_[row] == never) continue;
            const std::int64_t sum = costs_[row] * unit - earned;
            if (best && sum >= *best) continue;
            best = sum;
            where = row;
        }
    });
    if (!best) return std::nullopt;
    return Least{*best, costs_[where], falls_of(where)};
}

std::vector<std::int64_t> ShareCosts::falls_of(std::size_t cell) const {
    std::vector<std::int64_t> falls;
    for (const Axis& axis : axes_) {
        const auto size = static_cast<std::size_t>(axis.size());
        falls.push_back(axis.least + static_cast<std::int64_t>(cell % size));
        cell /= size;
    }
    return falls;
}

} // namespace barrow::layout
