#include "costing/shelf/landed.hpp"

namespace barrow::costing {

using base::Money;
using base::Wide;

std::vector<Money> landed_costs(const std::vector<DeliveryLine>& lines, Money extra, ShareBy by) {
    Wide value = 0;
    for (const DeliveryLine& line : lines) value += line.price.minor();
    const bool by_value = by == ShareBy::value && value > 0;
    std::vector<Wide> weights;
    weights.reserve(lines.size());
    for (const DeliveryLine& line : lines)
        weights.push_back(by_value ? line.price.minor() : line.quantity);
    std::vector<Money> costs = base::split(extra, weights);
    for (std::size_t i = 0; i < lines.size(); ++i) costs[i] += lines[i].price;
    return costs;
}

} // namespace barrow::costing
