#pragma once

#include "store/file/database.hpp"

#include <string>
#include <vector>

namespace barrow::store {

/// Everything that can be verified of a shop file, in words; empty when all is well: SQLite's own
/// integrity_check and foreign_key_check, the ledger invariants for the whole
/// shop, balances against movements, areas of every sheet cut, costs of journals against their
/// batches, reversals against what they reverse.
std::vector<std::string> all_faults(Database& database);

} // namespace barrow::store
