#pragma once

#include "base/money.hpp"
#include "store/file/database.hpp"
#include "store/ledger/ledger.hpp"

#include <cstdint>
#include <map>
#include <optional>
#include <vector>

namespace barrow::store {

/// What all lots cost, less what has gone back outside and plus what came back from there (returns
/// and reversals of receipts): a total of its own, counted from the lots as they come in and not
/// from what holders have, so that the two can be held against each other.
base::Money value_received(Database& database);

/// Whole units (sheets, rolls, strips, counted things; thousandths of bulk) on the shelves of each
/// material, whatever sizes its lots have. Materials without any are left out.
std::map<std::int64_t, std::int64_t> units_on_hand(Database& database);

/// A holder that has so much of a lot.
struct HeldLot {
    std::int64_t holder = 0;
    std::int64_t lot = 0;
};

/// Where that much of a material may have got lost: in a batch in work, in what went into
/// journals, or written off; of the newest lot first, or of one lot only. Nothing when no one
/// place has so much.
std::optional<HeldLot> where_lost(Database& database, std::int64_t material_id,
                                  std::int64_t quantity, std::int64_t only_lot = 0);

/// What stocktakes have written off of a material's lots and not given back, with its cost, the
/// newest lot first.
std::vector<Balance> corrected_away(Database& database, std::int64_t material_id);

} // namespace barrow::store
