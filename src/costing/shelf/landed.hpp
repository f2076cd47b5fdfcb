#pragma once

#include "base/money.hpp"

#include <cstdint>
#include <vector>

namespace barrow::costing {

/// One line of a delivery.
struct DeliveryLine {
    base::Money price;         ///< paid for the goods themselves
    std::int64_t quantity = 0; ///< in units
};

/// How freight and tax are laid on the lines of a delivery (IAS 2: part of the cost of purchase).
enum class ShareBy { value, quantity };

/// Cost of each line with its share of `extra`, exact: the shares add up to `extra` to the minor
/// unit (largest remainder). By value, lines that are free carry nothing, unless all are free:
/// then by quantity.
std::vector<base::Money> landed_costs(const std::vector<DeliveryLine>& lines, base::Money extra,
                                      ShareBy by);

} // namespace barrow::costing
