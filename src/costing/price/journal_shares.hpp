#pragma once

#include "base/money.hpp"

#include <cstdint>
#include <utility>
#include <vector>

namespace barrow::costing {

using base::Money;

/// What one part of a run took of one material, and the journals that have it.
struct PartShare {
    Money cost;
    /// Ranges of journals, first and last, counted from 1; none: all have it.
    std::vector<std::pair<std::int64_t, std::int64_t>> journals;
};

/// Divides what the materials of a run cost among its journals, so that each bears the papers it
/// has: what a part took of a material is borne in equal parts by the journals that have it. The
/// parts' costs are weights only; the shares add up to `total` exactly, rounded once by largest
/// remainder (base::split). Even shares where all parts were free. Requires journals > 0 and ranges
/// within them.
std::vector<Money> share_among_journals(Money total, std::int64_t journals,
                                        const std::vector<PartShare>& parts);

/// Divides an amount in proportion to costs, evenly where all of them are nothing.
std::vector<Money> share_by_cost(Money amount, const std::vector<Money>& costs);

} // namespace barrow::costing
