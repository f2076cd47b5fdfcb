#pragma once

#include "costing/shelf/lots.hpp"

#include <cstdint>
#include <vector>

namespace barrow::costing {

/// One unit (sheet, roll, strip) taken from a lot.
struct UnitTaken {
    std::int64_t lot = 0;
    Wide measure = 0; ///< its area, length or loops
};

/// Cost of each unit, so that they add up to what the takes gave: first in, first out, the units
/// of one lot share what was taken from that lot by measure; under the moving average all units
/// share the whole by measure.
std::vector<Money> unit_costs(const std::vector<LotTake>& takes,
                              const std::vector<UnitTaken>& units, CostOrder order);

/// What becomes of one sheet's cost.
struct SheetShares {
    std::vector<Money> remnants; ///< beside the areas given
    Money pieces;                ///< the rest, waste included
};

/// Divides one sheet's cost: each remnant kept carries its share by area of the whole sheet, as
/// far as the shop's rule lets it (`offcut_share`, 0 to 1); the pieces bear the rest and with it
/// the waste. The shares add up to the cost exactly (largest remainder).
SheetShares share_sheet(Money cost, const StockSize& size, const std::vector<Wide>& remnant_areas,
                        const base::Rational& offcut_share);

} // namespace barrow::costing
