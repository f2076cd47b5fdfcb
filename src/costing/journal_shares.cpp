#include "costing/journal_shares.hpp"

#include "base/wide.hpp"

#include <algorithm>

namespace barrow::costing {
namespace {

using base::Wide;

/// Parts of a minor unit in which a journal's share of each part is summed.
constexpr Wide fine = 1'000'000;

std::int64_t number_in(const PartShare& part) {
    std::int64_t number = 0;
    for (const auto& [first, last] : part.journals) number += last - first + 1;
    return number;
}

} // namespace

std::vector<Money> share_among_journals(Money total, std::int64_t journals,
                                        const std::vector<PartShare>& parts) {
    std::vector<Wide> weights(static_cast<std::size_t>(journals), 0);
    for (const PartShare& part : parts) {
        if (part.journals.empty()) {
            for (Wide& weight : weights) weight += Wide(part.cost.minor()) * fine / journals;
            continue;
        }
        const Wide each = Wide(part.cost.minor()) * fine / number_in(part);
        for (const auto& [first, last] : part.journals)
            for (std::int64_t j = first; j <= last; ++j)
                weights[static_cast<std::size_t>(j - 1)] += each;
    }
    if (std::all_of(weights.begin(), weights.end(), [](Wide weight) { return weight == 0; }))
        return base::split_evenly(total, weights.size());
    return base::split(total, weights);
}

} // namespace barrow::costing
