#include "costing/price/journal_shares.hpp"

#include "base/wide.hpp"

#include <algorithm>

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

} // namespace

std::vector<Money> share_by_cost(Money amount, const std::vector<Money>& costs) {
    std::vector<Wide> weights;
    weights.reserve(costs.size());
    for (const Money cost : costs) weights.push_back(cost.minor());
    return split_or_evenly(amount, weights);
}

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

} // namespace barrow::costing
