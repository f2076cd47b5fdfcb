#pragma once

#include "workshop/buying/buying.hpp"

#include <vector>

namespace barrow::workshop {

/// `reorder` for use cases that are in a transaction already.
Reorder reorder_in_transaction(store::Database& database, const std::vector<WantedRun>& wanted,
                               const base::Date& wanted_by, const base::Date& today);

} // namespace barrow::workshop
