#include "workshop/making/batch_shares.hpp"

#include <algorithm>

namespace barrow::workshop {

using base::Money;
using base::Wide;

std::vector<Money> share_as_planned(Money taken, const std::vector<Wide>& costs,
                                    const std::vector<Wide>& quantities) {
    const bool free = std::all_of(costs.begin(), costs.end(), [](Wide cost) { return cost == 0; });
    return base::split(taken, free ? quantities : costs);
}

std::vector<Money> share_among_parts(const std::map<std::int64_t, Money>& taken,
                                     const std::vector<store::BatchPart>& parts) {
    std::vector<Money> shares(parts.size());
    for (const auto& [material, value] : taken) {
        std::vector<std::size_t> which;
        std::vector<Wide> costs;
        std::vector<Wide> quantities;
        for (std::size_t p = 0; p < parts.size(); ++p) {
            if (parts[p].material_id != material) continue;
            which.push_back(p);
            costs.push_back(parts[p].cost.minor());
            quantities.push_back(parts[p].quantity);
        }
        if (which.empty()) continue;
        const auto each = share_as_planned(value, costs, quantities);
        for (std::size_t i = 0; i < which.size(); ++i) shares[which[i]] = each[i];
    }
    return shares;
}

} // namespace barrow::workshop
