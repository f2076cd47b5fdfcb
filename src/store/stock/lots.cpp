#include "store/stock/lots.hpp"

#include "store/file/kept.hpp"
#include "store/ledger/ledger.hpp"
#include "store/stock/named_lots.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

#include <algorithm>
#include <set>
#include <tuple>

namespace barrow::store {
namespace {

constexpr const char* lot_columns = "lot.id, lot.posting_id, material_id, supplier_id, unit_width, "
                                    "unit_height, lot.quantity, cost, received_on, note, extra";

Lot lot_from(SQLite::Statement& row) {
    Lot lot;
    lot.id = row.getColumn(0).getInt64();
    lot.posting_id = row.getColumn(1).getInt64();
    lot.material_id = row.getColumn(2).getInt64();
    if (!row.getColumn(3).isNull()) lot.supplier_id = row.getColumn(3).getInt64();
    lot.unit = {row.getColumn(4).getInt64(), row.getColumn(5).getInt64()};
    lot.quantity = row.getColumn(6).getInt64();
    lot.cost = base::Money::of_minor(row.getColumn(7).getInt64());
    lot.received_on = base::read_date(row.getColumn(8).getString(), "lot received_on");
    lot.note = row.getColumn(9).getString();
    lot.extra = base::Money::of_minor(row.getColumn(10).getInt64());
    return lot;
}

std::vector<Lot> lots_where(Database& database, const std::string& where, std::int64_t value) {
    std::vector<Lot> lots;
    SQLite::Statement query(database.sql(),
                            std::string("SELECT ") + lot_columns + " FROM lot WHERE " + where);
    query.bind(1, value);
    while (query.executeStep()) lots.push_back(lot_from(query));
    return lots;
}

/// Batches that may hold something.
std::set<std::int64_t> open_batches(Database& database) {
    std::set<std::int64_t> open;
    SQLite::Statement query(database.sql(),
                            "SELECT id FROM batch WHERE status IN ('planned', 'cut')");
    while (query.executeStep()) open.insert(query.getColumn(0).getInt64());
    return open;
}

} // namespace

std::int64_t add_lot(Database& database, const Lot& lot) {
    const std::int64_t id = add_holder(database, "shelf");
    SQLite::Statement statement(
        database.sql(),
        "INSERT INTO lot (id, posting_id, material_id, supplier_id, unit_width, unit_height, "
        "quantity, cost, received_on, note, extra) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
    statement.bind(1, id);
    statement.bind(2, lot.posting_id);
    statement.bind(3, lot.material_id);
    if (lot.supplier_id) statement.bind(4, *lot.supplier_id);
    statement.bind(5, lot.unit.width);
    statement.bind(6, lot.unit.height);
    statement.bind(7, lot.quantity);
    statement.bind(8, lot.cost.minor());
    statement.bind(9, base::to_text(lot.received_on));
    statement.bind(10, lot.note);
    statement.bind(11, lot.extra.minor());
    statement.exec();
    return id;
}

std::vector<LotOnShelf> lots_on_shelf(Database& database, std::int64_t material_id) {
    std::vector<LotOnShelf> lots;
    SQLite::Statement query(database.sql(),
                            std::string("SELECT ") + lot_columns
                                + ", sum(balance.quantity), sum(balance.value) FROM lot "
                                  "JOIN balance ON holder_id = lot.id WHERE material_id = ? "
                                  "GROUP BY received_on, lot.id ORDER BY received_on, lot.id");
    query.bind(1, material_id);
    while (query.executeStep())
        lots.push_back({lot_from(query), query.getColumn(11).getInt64(),
                        base::Money::of_minor(query.getColumn(12).getInt64())});
    return lots;
}

std::vector<LotOnShelf> named_lots(Database& database,
                                   const std::map<std::int64_t, std::int64_t>& ids) {
    std::vector<LotOnShelf> lots;
    const Kept query(database, std::string("SELECT ") + lot_columns
                                   + ", ifnull(sum(balance.quantity), 0), "
                                     "ifnull(sum(balance.value), 0) FROM lot "
                                     "LEFT JOIN balance ON holder_id = lot.id "
                                     "WHERE lot.id = ?");
    for (const auto& [id, quantity] : ids) {
        query->reset();
        query->bind(1, id);
        query->executeStep();
        lots.push_back({lot_from(*query), query->getColumn(11).getInt64(),
                        base::Money::of_minor(query->getColumn(12).getInt64())});
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
    SQLite::Statement query(database.sql(),
                            std::string("SELECT ") + lot_columns
                                + " FROM lot WHERE material_id = ? AND (SELECT kind FROM posting "
                                  "WHERE posting.id = posting_id) = 'receive' "
                                  "ORDER BY received_on DESC, lot.id DESC");
    query.bind(1, material_id);
    while (query.executeStep()) {
        Lot lot = lot_from(query);
        if (stands(database, lot.posting_id)) return lot;
    }
    return std::nullopt;
}

bool has_lots(Database& database, std::int64_t material_id) {
    SQLite::Statement query(database.sql(), "SELECT 1 FROM lot WHERE material_id = ? LIMIT 1");
    query.bind(1, material_id);
    return query.executeStep();
}

std::unordered_map<std::int64_t, OnHand> on_hand(Database& database) {
    std::unordered_map<std::int64_t, OnHand> materials;
    // Holders of the shop itself come first; after them, balances are of what is there: on a lot's
    // own shelf, in offcuts, in open batches. Of several lots that one of them has value of, one
    // is its own and has its quantity.
    SQLite::Statement query(
        database.sql(), "SELECT material_id, holder_id, lot_id, balance.quantity, balance.value, "
                        "unit_width * unit_height FROM balance CROSS JOIN lot ON lot.id = lot_id "
                        "WHERE holder_id > 4 ORDER BY holder_id");
    const auto in_work = open_batches(database);
    while (query.executeStep()) {
        const std::int64_t holder = query.getColumn(1).getInt64();
        if (in_work.count(holder) > 0) continue;
        const std::int64_t quantity = query.getColumn(3).getInt64();
        const auto value = base::Money::of_minor(query.getColumn(4).getInt64());
        OnHand& material = materials[query.getColumn(0).getInt64()];
        material.material_id = query.getColumn(0).getInt64();
        const bool own = holder == query.getColumn(2).getInt64();
        if (own || (quantity == 0 && kind_of_holder(database, holder) == "shelf")) {
            material.quantity += quantity;
            material.units += quantity / query.getColumn(5).getInt64();
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
