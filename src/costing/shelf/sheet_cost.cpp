#include "costing/shelf/sheet_cost.hpp"

#include <numeric>

namespace barrow::costing {
namespace {

std::vector<Money> all_together(Money total, const std::vector<UnitTaken>& units) {
    std::vector<Wide> measures;
    measures.reserve(units.size());
    for (const UnitTaken& unit : units) measures.push_back(unit.measure);
    return base::split(total, measures);
}

} // namespace

std::vector<Money> unit_costs(const std::vector<LotTake>& takes,
                              const std::vector<UnitTaken>& units, CostOrder order) {
    if (order == CostOrder::moving_average) return all_together(value_of(takes), units);
    std::vector<Money> costs(units.size());
    for (const LotTake& take : takes) {
        std::vector<std::size_t> own;
        std::vector<Wide> measures;
        for (std::size_t i = 0; i < units.size(); ++i) {
            if (units[i].lot != take.lot) continue;
            own.push_back(i);
            measures.push_back(units[i].measure);
        }
        const auto shares = base::split(take.value, measures);
        for (std::size_t i = 0; i < own.size(); ++i) costs[own[i]] = shares[i];
    }
    return costs;
}

SheetShares share_sheet(Money cost, const StockSize& size, const std::vector<Wide>& remnant_areas,
                        const base::Rational& offcut_share) {
    const Wide whole = size.measure() * offcut_share.divisor();
    std::vector<Wide> weights;
    weights.reserve(remnant_areas.size() + 1);
    for (const Wide area : remnant_areas) weights.push_back(area * offcut_share.number());
    weights.push_back(whole - std::accumulate(weights.begin(), weights.end(), Wide{0}));
    SheetShares shares;
    shares.remnants = base::split(cost, weights);
    shares.pieces = shares.remnants.back();
    shares.remnants.pop_back();
    return shares;
}

} // namespace barrow::costing
