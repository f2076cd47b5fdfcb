#pragma once

#include "store/file/database.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace barrow::store {

/// Invariants of one lot, recomputed from its movements: what it says it received came in; every
/// holder's balance of it is what was moved there less what was moved away; quantity and value of
/// all holders cancel against what the outside owes; an offcut holds what its size and lot allow;
/// the shelf holds whole units. Adds what is wrong, in words. Reads all movements of the lot once.
void add_lot_faults(Database& database, std::int64_t lot, std::vector<std::string>& faults);

/// Lots that movements after `movement` were of, and all lots there are.
std::vector<std::int64_t> lots_touched_since(Database& database, std::int64_t movement);
std::vector<std::int64_t> all_lot_ids(Database& database);

/// Adds what is wrong with the totals of the whole shop: the value of all holders must cancel out,
/// and journals must be worth what went into them. Reads running totals: the cost does not grow.
void add_total_faults(Database& database, std::vector<std::string>& faults);

/// Ledger invariants for every lot, offcut, batch and journal that movements after `movement`
/// touch: the cost and quantity of each lot are all accounted for, balances agree with the
/// movements, nothing is below zero, journals are worth what they were made of. Cost grows with
/// what was touched, not with the ledger. Empty when all is well.
std::vector<std::string> faults_since(Database& database, std::int64_t movement);

} // namespace barrow::store
