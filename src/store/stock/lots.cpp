#include "store/stock/lots.hpp"

#include "store/file/rows.hpp"
#include "store/ledger/ledger.hpp"
#include "store/stock/named_lots.hpp"

#include <algorithm>
#include <set>
#include <tuple>

namespace barrow::store {
namespace {

constexpr const char* lot_columns = "lot.id, lot.posting_id, material_id, supplier_id, unit_width, "
                                    "unit_height, lot.quantity, cost, received_on, note, extra";

Lot lot_from(Query& row) {
    Lot lot;
    lot.id = row.number();
    lot.posting_id = row.number();
    lot.material_id = row.number();
    lot.supplier_id = row.maybe_number();
    lot.unit = {row.number(), row.number()};
    lot.quantity = row.number();
    lot.cost = row.money();
    lot.received_on = row.date("lot received_on");
    lot.note = row.text();
    lot.extra = row.money();
    return lot;
}

std::vector<Lot> lots_where(Database& database, const std::string& where, std::int64_t value) {
    std::vector<Lot> lots;
    Query query(database, std::string("SELECT ") + lot_columns + " FROM lot WHERE " + where, value);
    while (query.next()) lots.push_back(lot_from(query));
    return lots;
}

/// Batches that may hold something.
std::set<std::int64_t> open_batches(Database& database) {
    std::set<std::int64_t> open;
    Query query(database, "SELECT id FROM batch WHERE status IN ('planned', 'cut')");
    while (query.next()) open.insert(query.number());
    return open;
}

} // namespace

std::int64_t add_lot(Database& database, const Lot& lot) {
    const std::int64_t id = add_holder(database, "shelf");
    execute(database,
            "INSERT INTO lot (id, posting_id, material_id, supplier_id, unit_width, unit_height, "
            "quantity, cost, received_on, note, extra) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            id, lot.posting_id, lot.material_id, lot.supplier_id, lot.unit.width, lot.unit.height,
            lot.quantity, lot.cost, lot.received_on, lot.note, lot.extra);
    return id;
}

std::vector<LotOnShelf> lots_on_shelf(Database& database, std::int64_t material_id) {
    std::vector<LotOnShelf> lots;
    Query query(database,
                std::string("SELECT ") + lot_columns
                    + ", sum(balance.quantity), sum(balance.value) FROM lot "
                      "JOIN balance ON holder_id = lot.id WHERE material_id = ? "
                      "GROUP BY received_on, lot.id ORDER BY received_on, lot.id",
                material_id);
    while (query.next()) lots.push_back({lot_from(query), query.number(), query.money()});
    return lots;
}

std::vector<LotOnShelf> named_lots(Database& database,
                                   const std::map<std::int64_t, std::int64_t>& ids) {
    std::vector<LotOnShelf> lots;
    for (const auto& [id, quantity] : ids) {
        Query query(database,
                    std::string("SELECT ") + lot_columns
                        + ", ifnull(sum(balance.quantity), 0), ifnull(sum(balance.value), 0) "
                          "FROM lot LEFT JOIN balance ON holder_id = lot.id WHERE lot.id = ?",
                    id);
        query.next();
        lots.push_back({lot_from(query), query.number(), query.money()});
    }
    std::sort(lots.begin(), lots.end(), [](const LotOnShelf& a, const LotOnShelf& b) {
        return std::tie(a.lot.received_on, a.lot.id) < std::tie(b.lot.received_on, b.lot.id);
    });
    return lots;
}

std::optional<Lot> lot_by_id(Database& database, std::int64_t id) {
    auto lots = lots_where(database, "id = ?", id);
    if (lots.empty()) return std::nullopt;
    return lots.front();
}

std::vector<Lot> lots_of_posting(Database& database, std::int64_t posting_id) {
    return lots_where(database, "posting_id = ? ORDER BY id", posting_id);
}

std::optional<Lot> last_receipt(Database& database, std::int64_t material_id) {
    Query query(database,
                std::string("SELECT ") + lot_columns
                    + " FROM lot WHERE material_id = ? AND (SELECT kind FROM posting "
                      "WHERE posting.id = posting_id) = 'receive' "
                      "ORDER BY received_on DESC, lot.id DESC",
                material_id);
    while (query.next()) {
        Lot lot = lot_from(query);
        if (stands(database, lot.posting_id)) return lot;
    }
    return std::nullopt;
}

bool has_lots(Database& database, std::int64_t material_id) {
    Query query(database, "SELECT 1 FROM lot WHERE material_id = ? LIMIT 1", material_id);
    return query.next();
}

std::unordered_map<std::int64_t, OnHand> on_hand(Database& database) {
    std::unordered_map<std::int64_t, OnHand> materials;
    // Holders of the shop itself come first; after them, balances are of what is there: on a lot's
    // own shelf, in offcuts, in open batches. Of several lots that one of them has value of, one
    // is its own and has its quantity.
    Query query(database,
                "SELECT holder_id, material_id, lot_id, unit_width * unit_height, "
                "balance.quantity, balance.value FROM balance CROSS JOIN lot ON lot.id = lot_id "
                "WHERE holder_id > 4 ORDER BY holder_id");
    const auto in_work = open_batches(database);
    while (query.next()) {
        const std::int64_t holder = query.number();
        if (in_work.count(holder) > 0) continue;
        const std::int64_t id = query.number();
        OnHand& material = materials[id];
        material.material_id = id;
        const bool own = holder == query.number();
        const std::int64_t unit = query.number();
        const std::int64_t quantity = query.number();
        const base::Money value = query.money();
        if (own || (quantity == 0 && kind_of_holder(database, holder) == "shelf")) {
            material.quantity += quantity;
            material.units += quantity / unit;
            material.shelf_value += value;
            continue;
        }
        if (quantity > 0) ++material.offcuts;
        material.offcut_quantity += quantity;
        material.offcut_value += value;
    }
    return materials;
}

} // namespace barrow::store
