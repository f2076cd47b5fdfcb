#pragma once

#include "base/date.hpp"
#include "base/form.hpp"
#include "base/money.hpp"
#include "store/file/database.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

namespace barrow::store {

/// One receipt of one material; see schema/2_ledger.sql.
struct Lot {
    std::int64_t id = 0; ///< also the holder that is its shelf
    std::int64_t posting_id = 0;
    std::int64_t material_id = 0;
    std::optional<std::int64_t> supplier_id;
    base::StockSize unit;
    std::int64_t quantity = 0; ///< received, in the form's measure
    base::Money cost;          ///< paid, freight and tax included
    base::Money extra = {};    ///< of the cost: freight and tax
    base::Date received_on;
    std::string note;
};

/// A lot with what is still on its shelf.
struct LotOnShelf {
    Lot lot;
    std::int64_t quantity = 0;
    base::Money value;
};

/// Makes the lot and its holder (its id is ignored); stock is not moved.
std::int64_t add_lot(Database& database, const Lot& lot);

/// The latest receipt of a material from a supplier that stands; nothing without any.
std::optional<Lot> last_receipt(Database& database, std::int64_t material_id);

/// Lots of a material that still have quantity or value on the shelf, oldest receipt first.
std::vector<LotOnShelf> lots_on_shelf(Database& database, std::int64_t material_id);

std::optional<Lot> lot_by_id(Database& database, std::int64_t id);
/// Lots that a posting received.
std::vector<Lot> lots_of_posting(Database& database, std::int64_t posting_id);
bool has_lots(Database& database, std::int64_t material_id);

/// On hand of every material with stock: whole quantity on shelves and number and value of
/// offcuts. Reads live balances only, not the ledger.
struct OnHand {
    std::int64_t material_id = 0;
    std::int64_t quantity = 0; ///< on shelves, in the form's measure
    base::Money shelf_value;
    std::int64_t offcuts = 0;
    std::int64_t offcut_quantity = 0;
    base::Money offcut_value;
    std::int64_t units = 0; ///< on shelves, in whole units, whatever sizes the lots have
};
std::unordered_map<std::int64_t, OnHand> on_hand(Database& database); ///< by material

} // namespace barrow::store
