#include "store/ledger/lot_checks.hpp"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <map>

namespace barrow::store {
namespace {

struct Sums {
    std::int64_t quantity = 0;
    std::int64_t value = 0;
};

bool differ(const Sums& a, const Sums& b) {
    return a.quantity != b.quantity || a.value != b.value;
}

/// What the movements of a lot come to: what was received, and what each holder has.
struct Moved {
    Sums received;
    std::map<std::int64_t, Sums> holders;
};

Moved add_up(SQLite::Statement& movements) {
    Moved moved;
    while (movements.executeStep()) {
        const Sums what{movements.getColumn(2).getInt64(), movements.getColumn(3).getInt64()};
        Sums& from = moved.holders[movements.getColumn(0).getInt64()];
        from.quantity -= what.quantity;
        from.value -= what.value;
        Sums& to = moved.holders[movements.getColumn(1).getInt64()];
        to.quantity += what.quantity;
        to.value += what.value;
        if (movements.getColumn(4).getInt() == 0) continue;
        moved.received.quantity += what.quantity;
        moved.received.value += what.value;
    }
    return moved;
}

/// Whether what an offcut holds of the lot does not fit it. `row` is one of balances_.
bool misfits(SQLite::Statement& row, std::int64_t lot, std::int64_t quantity) {
    if (row.isColumnNull(3) || quantity == 0) return false;
    const std::int64_t size = row.getColumn(5).getInt64();
    const bool sheet = row.getColumn(6).getInt64() > 1;
    return row.getColumn(4).getInt64() != lot || quantity > size || (sheet && quantity != size);
}

} // namespace

LotChecks::LotChecks(Database& database)
    : lot_(database.sql(), "SELECT quantity, cost, unit_width * unit_height FROM lot WHERE id = ?"),
      movements_(database.sql(), "SELECT from_holder, to_holder, quantity, value, "
                                 "kind = 'receive' FROM movement WHERE lot_id = ?"),
      balances_(database.sql(),
                "SELECT holder_id, quantity, value, offcut.code, offcut.lot_id, width * height, "
                "height FROM balance LEFT JOIN offcut ON offcut.id = holder_id "
                "WHERE balance.lot_id = ?") {}

void LotChecks::add_faults(std::int64_t lot, std::vector<std::string>& faults) {
    for (SQLite::Statement* statement : {&lot_, &movements_, &balances_}) {
        statement->reset();
        statement->bind(1, lot);
    }
    const Moved moved = add_up(movements_);
    if (!lot_.executeStep()) return; // a reference to nothing is found by the check of the file
    const Sums said{lot_.getColumn(0).getInt64(), lot_.getColumn(1).getInt64()};
    const std::int64_t unit = lot_.getColumn(2).getInt64();
    if (differ(said, moved.received))
        faults.push_back(
            fmt::format("lot {} says it received {}, its movements say {}, or its cost differs",
                        lot, said.quantity, moved.received.quantity));
    Sums all;
    std::map<std::int64_t, Sums> balances;
    while (balances_.executeStep()) {
        const std::int64_t holder = balances_.getColumn(0).getInt64();
        const Sums has{balances_.getColumn(1).getInt64(), balances_.getColumn(2).getInt64()};
        balances[holder] = has;
        all.quantity += has.quantity;
        all.value += has.value;
        if (misfits(balances_, lot, has.quantity))
            faults.push_back(
                fmt::format("offcut {} holds {}, which does not fit its size or its lot",
                            balances_.getColumn(3).getString(), has.quantity));
        if (holder == lot && has.quantity % unit != 0)
            faults.push_back(
                fmt::format("lot {} has {} on the shelf, which is not a whole number of units", lot,
                            has.quantity));
    }
    for (const auto& [holder, sums] : moved.holders)
        if (differ(sums, balances[holder]))
            faults.push_back(fmt::format(
                "lot {}: holder {} has {} worth {} by the movements, not so by its balance", lot,
                holder, sums.quantity, sums.value));
    if (differ(all, {}))
        faults.push_back(
            fmt::format("lot {} does not add up: {} and {} in value are unaccounted for", lot,
                        all.quantity, all.value));
}

std::vector<std::int64_t> lots_touched_since(Database& database, std::int64_t movement) {
    std::vector<std::int64_t> lots;
    // The plus keeps SQLite from walking the index of lots, which is as long as the ledger, in the
    // place of the few movements.
    SQLite::Statement query(database.sql(), "SELECT DISTINCT +lot_id FROM movement WHERE id > ? "
                                            "AND +lot_id IS NOT NULL");
    query.bind(1, movement);
    while (query.executeStep()) lots.push_back(query.getColumn(0).getInt64());
    return lots;
}

std::vector<std::int64_t> all_lot_ids(Database& database) {
    std::vector<std::int64_t> lots;
    SQLite::Statement query(database.sql(), "SELECT id FROM lot ORDER BY id");
    while (query.executeStep()) lots.push_back(query.getColumn(0).getInt64());
    return lots;
}

void add_total_faults(Database& database, std::vector<std::string>& faults) {
    SQLite::Statement all(database.sql(), "SELECT ifnull(sum(value), 0) FROM kind_value");
    all.executeStep();
    const std::int64_t lost = all.getColumn(0).getInt64();
    if (lost != 0)
        faults.push_back(
            fmt::format("the shop does not add up: {} in value is unaccounted for", lost));
    SQLite::Statement made(database.sql(),
                           "SELECT value FROM kind_value WHERE kind = 'made' AND value <> 0");
    if (made.executeStep())
        faults.push_back(fmt::format("journals and what they were made of differ by {} in value",
                                     made.getColumn(0).getInt64()));
}

std::vector<std::string> faults_since(Database& database, std::int64_t movement) {
    std::vector<std::string> faults;
    LotChecks lots(database);
    for (const std::int64_t lot : lots_touched_since(database, movement))
        lots.add_faults(lot, faults);
    add_total_faults(database, faults);
    return faults;
}

} // namespace barrow::store
