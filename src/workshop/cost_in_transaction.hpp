#pragma once

#include "workshop/cost.hpp"

namespace barrow::workshop {

/// `cost` for use cases that already stand in a transaction.
Costing cost_in_transaction(store::Database& database, const std::vector<WantedRun>& wanted,
                            const base::Date& today, const HowToCost& how);

} // namespace barrow::workshop
