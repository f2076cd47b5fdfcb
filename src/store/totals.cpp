#include "store/totals.hpp"

#include "store/ledger.hpp"

namespace barrow::store {

base::Money value_received(Database& database) {
    SQLite::Statement query(
        database.sql(),
        "SELECT (SELECT ifnull(sum(cost), 0) FROM lot) "
        "- (SELECT ifnull(sum(value), 0) FROM movement WHERE to_holder = ?1) "
        "+ (SELECT ifnull(sum(value), 0) FROM movement WHERE from_holder = ?1 AND kind <> 'receive')");
    query.bind(1, outside);
    query.executeStep();
    return base::Money::of_minor(query.getColumn(0).getInt64());
}

std::map<std::int64_t, std::int64_t> units_on_hand(Database& database) {
    std::map<std::int64_t, std::int64_t> units;
    SQLite::Statement query(database.sql(),
                            "SELECT material_id, sum(balance.quantity / (unit_width * unit_height)) "
                            "FROM balance JOIN lot ON lot.id = lot_id "
                            "WHERE holder_id = lot_id GROUP BY material_id");
    while (query.executeStep())
        units[query.getColumn(0).getInt64()] = query.getColumn(1).getInt64();
    return units;
}

} // namespace barrow::store
