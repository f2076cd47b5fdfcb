#pragma once

#include "base/money.hpp"
#include "store/database.hpp"

#include <cstdint>
#include <map>

namespace barrow::store {

/// What all lots cost, less what has gone back outside and plus what came back from there (returns
/// and reversals of receipts): found from the lots and the movements that touch the outside, not
/// from any running total.
base::Money value_received(Database& database);

/// Whole units (sheets, rolls, strips, counted things; thousandths of bulk) on the shelves of each
/// material, whatever sizes its lots have. Materials without any are left out.
std::map<std::int64_t, std::int64_t> units_on_hand(Database& database);

} // namespace barrow::store
