#pragma once

#include "store/database.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace barrow::store {

/// Ledger invariants for every lot, offcut, batch and journal that movements after `movement`
/// touch: the cost and quantity of each lot are all accounted for, balances agree with the
/// movements, nothing is below zero, journals are worth what they were made of. Cost grows with
/// what was touched, not with the ledger. Empty when all is well.
std::vector<std::string> faults_since(Database& database, std::int64_t movement);

/// Everything that can be verified of a shop file, in words; empty when all is well: SQLite's own
/// integrity_check and foreign_key_check, the ledger invariants for the whole
/// shop, balances against movements, areas of every sheet cut, costs of journals against their
/// batches, reversals against what they reverse.
std::vector<std::string> all_faults(Database& database);

} // namespace barrow::store
