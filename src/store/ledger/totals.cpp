#include "store/ledger/totals.hpp"

#include "store/file/rows.hpp"

namespace barrow::store {

base::Money value_received(Database& database) {
    Query query(database, "SELECT value FROM received_value");
    query.next();
    return query.money();
}

std::map<std::int64_t, std::int64_t> units_on_hand(Database& database) {
    std::map<std::int64_t, std::int64_t> units;
    // CROSS JOIN keeps SQLite from walking all lots there ever were in the order of materials.
    Query query(database, "SELECT material_id, sum(balance.quantity / (unit_width * unit_height)) "
                          "FROM balance CROSS JOIN lot ON lot.id = lot_id "
                          "WHERE holder_id > 4 AND holder_id = lot_id GROUP BY material_id");
    while (query.next()) units.insert({query.number(), query.number()});
    return units;
}

std::optional<HeldLot> where_lost(Database& database, std::int64_t material_id,
                                  std::int64_t quantity, std::int64_t only_lot) {
    Query query(database,
                "SELECT holder_id, lot_id FROM lot JOIN balance ON lot_id = lot.id "
                "JOIN holder ON holder.id = holder_id "
                "WHERE material_id = ?1 AND kind IN ('batch', 'made', 'written_off') "
                "AND balance.quantity >= ?2 AND (?3 = 0 OR lot.id = ?3) "
                "ORDER BY kind, received_on DESC, lot_id DESC, holder_id",
                material_id, quantity, only_lot);
    if (!query.next()) return std::nullopt;
    return HeldLot{query.number(), query.number()};
}

std::vector<Balance> corrected_away(Database& database, std::int64_t material_id) {
    std::vector<Balance> lost;
    // Only what went between the lot's shelf and what is written off: an offcut lost at a count is
    // no whole unit. An entry stands when no reversal that stands points at it.
    Query query(
        database,
        "WITH RECURSIVE moved AS ("
        "  SELECT m.posting_id, m.lot_id, m.quantity, m.value, m.to_holder = ?2 AS away"
        "  FROM (SELECT id FROM lot WHERE material_id = ?1) own JOIN movement m ON m.lot_id = "
        "own.id"
        "  WHERE m.kind = 'correct' AND ((m.from_holder = m.lot_id AND m.to_holder = ?2)"
        "    OR (m.from_holder = ?2 AND m.to_holder = m.lot_id))),"
        " chain (start, id, standing) AS ("
        "  SELECT DISTINCT posting_id, posting_id, 1 FROM moved"
        "  UNION ALL SELECT start, p.id, 1 - standing FROM chain JOIN posting p ON p.reverses = "
        "chain.id),"
        " fallen AS (SELECT start FROM chain c WHERE standing = 0"
        "  AND NOT EXISTS (SELECT 1 FROM posting p WHERE p.reverses = c.id))"
        "SELECT lot_id, sum(CASE away WHEN 1 THEN quantity ELSE -quantity END) AS lost, "
        "sum(CASE away WHEN 1 THEN value ELSE -value END) FROM moved "
        "WHERE posting_id NOT IN (SELECT start FROM fallen) "
        "GROUP BY lot_id HAVING lost > 0 ORDER BY lot_id DESC",
        material_id, written_off);
    while (query.next()) {
        Balance away{written_off, query.number(), query.number(), query.money()};
        const Balance held = balance_of(database, written_off, away.lot);
        if (held.quantity < away.quantity || held.value < away.value || away.value < base::Money())
            continue;
        lost.push_back(away);
    }
    return lost;
}

} // namespace barrow::store
