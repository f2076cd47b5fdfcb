#include "costing/price/journal_shares.hpp"

#include "base/wide.hpp"

#include <algorithm>
#include <map>
#include <numeric>

namespace barrow::costing {
namespace {

using base::Wide;

/// Parts of a minor unit in which a journal's share of each part is summed.
constexpr Wide millionths = 1'000'000;

std::int64_t number_in(const PartShare& part) {
    std::int64_t number = 0;
    for (const auto& [first, last] : part.journals) number += last - first + 1;
    return number;
}

std::vector<Money> split_or_evenly(Money amount, const std::vector<Wide>& weights) {
    if (std::all_of(weights.begin(), weights.end(), [](Wide weight) { return weight == 0; }))
        return base::split_evenly(amount, weights.size());
    return base::split(amount, weights);
}

/// Adds equal parts of the amount to the shares of these journals; odd minor units go to those that
/// are least `over`, which grows with them.
void divide_evenly(Money amount, std::vector<std::size_t> journals, std::vector<Money>& over,
                   std::vector<Money>& shares) {
    std::stable_sort(journals.begin(), journals.end(),
                     [&](std::size_t a, std::size_t b) { return over[a] < over[b]; });
    const auto number = static_cast<std::int64_t>(journals.size());
    const std::int64_t each = amount.minor() / number;
    std::int64_t odd = amount.minor() % number;
    for (const std::size_t j : journals) {
        const Money extra = Money::of_minor(odd > 0 ? 1 : 0);
        if (odd > 0) --odd;
        shares[j] += Money::of_minor(each) + extra;
        over[j] += extra;
    }
}

/// Overheads in proportion to materials and labour: first among the kinds, then within each.
void divide_by_kind(Money overheads, const std::vector<Money>& materials,
                    const std::vector<std::int64_t>& kinds, std::vector<Money>& over,
                    JournalCosts& costs) {
    std::map<std::int64_t, std::vector<std::size_t>> members;
    for (std::size_t j = 0; j < kinds.size(); ++j) members[kinds[j]].push_back(j);
    std::vector<Wide> weights;
    bool free = true;
    for (const auto& [kind, journals] : members) {
        Money sum;
        for (const std::size_t j : journals) sum += materials[j] + costs.labour[j];
        weights.push_back(sum.minor());
        free = free && sum.is_zero();
    }
    if (free) {
        weights.clear();
        for (const auto& [kind, journals] : members) weights.push_back(Wide(journals.size()));
    }
    const auto shares = base::split(overheads, weights);
    std::size_t at = 0;
    for (const auto& [kind, journals] : members)
        divide_evenly(shares[at++], journals, over, costs.overheads);
}

} // namespace

std::vector<Money> share_among_journals(Money total, std::int64_t journals,
                                        const std::vector<PartShare>& parts) {
    std::vector<Wide> weights(static_cast<std::size_t>(journals), 0);
    for (const PartShare& part : parts) {
        if (part.journals.empty()) {
            for (Wide& weight : weights) weight += Wide(part.cost.minor()) * millionths / journals;
            continue;
        }
        const Wide each = Wide(part.cost.minor()) * millionths / number_in(part);
        for (const auto& [first, last] : part.journals)
            for (std::int64_t j = first; j <= last; ++j)
                weights[static_cast<std::size_t>(j - 1)] += each;
    }
    return split_or_evenly(total, weights);
}

JournalCosts share_work(std::vector<Money> materials, Money labour, Money overheads, bool by_cost,
                        const std::vector<std::int64_t>& kinds) {
    // How much more each journal bears than the one of its kind that bears least.
    std::map<std::int64_t, Money> least;
    for (std::size_t j = 0; j < kinds.size(); ++j) {
        const auto [own, fresh] = least.emplace(kinds[j], materials[j]);
        if (!fresh) own->second = std::min(own->second, materials[j]);
    }
    std::vector<Money> over(kinds.size());
    for (std::size_t j = 0; j < kinds.size(); ++j) over[j] = materials[j] - least.at(kinds[j]);
    JournalCosts costs;
    std::vector<std::size_t> all(kinds.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    costs.labour.resize(kinds.size());
    costs.overheads.resize(kinds.size());
    divide_evenly(labour, all, over, costs.labour);
    if (by_cost)
        divide_by_kind(overheads, materials, kinds, over, costs);
    else
        divide_evenly(overheads, all, over, costs.overheads);
    costs.materials = std::move(materials);
    return costs;
}

} // namespace barrow::costing
