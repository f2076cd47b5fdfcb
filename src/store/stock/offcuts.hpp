#pragma once

#include "base/date.hpp"
#include "base/form.hpp"
#include "base/money.hpp"
#include "store/file/database.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace barrow::store {

/// A remnant; see schema/2_ledger.sql.
struct Offcut {
    std::int64_t id = 0; ///< also its holder
    std::int64_t posting_id = 0;
    std::string code;
    std::int64_t material_id = 0;
    std::int64_t lot_id = 0;
    base::StockSize size; ///< when it was kept
    base::Date kept_on;
    std::string place;
    std::string note;
};

/// An offcut with what is left of it. For lengths and wire `size` is what is left now.
struct OffcutOnHand {
    Offcut offcut;
    std::int64_t quantity = 0;
    base::Money value;
};

/// Makes the offcut and its holder, giving it the next free short code (id and code of `offcut`
/// are ignored); stock is not moved.
Offcut add_offcut(Database& database, Offcut offcut);

/// Place and note may change; nothing else.
void update_offcut(Database& database, const Offcut& offcut);

/// Offcuts of a material that are there, longest kept first.
std::vector<OffcutOnHand> offcuts_on_hand(Database& database, std::int64_t material_id);
/// All that are there, by material code, then longest kept first.
std::vector<OffcutOnHand> all_offcuts_on_hand(Database& database);

/// By the code on the label, as base::short_code writes it.
std::optional<Offcut> find_offcut(Database& database, const std::string& code);
std::optional<Offcut> offcut_by_id(Database& database, std::int64_t id);

} // namespace barrow::store
