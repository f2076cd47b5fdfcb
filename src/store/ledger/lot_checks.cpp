#include "store/ledger/lot_checks.hpp"

#include "store/file/rows.hpp"

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

Moved add_up(Database& database, std::int64_t lot) {
    Moved moved;
    Query movements(database,
                    "SELECT from_holder, to_holder, quantity, value, kind = 'receive' "
                    "FROM movement WHERE lot_id = ?",
                    lot);
    while (movements.next()) {
        Sums& from = moved.holders[movements.number()];
        Sums& to = moved.holders[movements.number()];
        const Sums what{movements.number(), movements.number()};
        from.quantity -= what.quantity;
        from.value -= what.value;
        to.quantity += what.quantity;
        to.value += what.value;
        if (!movements.yes()) continue;
        moved.received.quantity += what.quantity;
        moved.received.value += what.value;
    }
    return moved;
}

/// An offcut that holds something of a lot.
struct HoldingOffcut {
    std::string code; ///< empty for a holder that is no offcut
    std::int64_t lot;
    std::int64_t size;
    std::int64_t height;
};

/// Whether what it holds of `lot` does not fit it.
bool misfits(const HoldingOffcut& offcut, std::int64_t lot, std::int64_t quantity) {
    if (offcut.code.empty() || quantity == 0) return false;
    const bool sheet = offcut.height > 1;
    return offcut.lot != lot || quantity > offcut.size || (sheet && quantity != offcut.size);
}

} // namespace

void add_lot_faults(Database& database, std::int64_t lot, std::vector<std::string>& faults) {
    Query facts(database, "SELECT quantity, cost, unit_width * unit_height FROM lot WHERE id = ?",
                lot);
    if (!facts.next()) return; // a reference to nothing is found by the check of the file
    const Sums said{facts.number(), facts.number()};
    const std::int64_t unit = facts.number();
    const Moved moved = add_up(database, lot);
    if (differ(said, moved.received))
        faults.push_back(
            fmt::format("lot {} says it received {}, its movements say {}, or its cost differs",
                        lot, said.quantity, moved.received.quantity));
    Sums all;
    std::map<std::int64_t, Sums> balances;
    Query held(database,
               "SELECT holder_id, quantity, value, offcut.code, offcut.lot_id, width * height, "
               "height FROM balance LEFT JOIN offcut ON offcut.id = holder_id "
               "WHERE balance.lot_id = ?",
               lot);
    while (held.next()) {
        const std::int64_t holder = held.number();
        const Sums has{held.number(), held.number()};
        const HoldingOffcut offcut{held.text(), held.number(), held.number(), held.number()};
        balances[holder] = has;
        all.quantity += has.quantity;
        all.value += has.value;
        if (misfits(offcut, lot, has.quantity))
            faults.push_back(
                fmt::format("offcut {} holds {}, which does not fit its size or its lot",
                            offcut.code, has.quantity));
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
    Query query(database,
                "SELECT DISTINCT +lot_id FROM movement WHERE id > ? "
                "AND +lot_id IS NOT NULL",
                movement);
    while (query.next()) lots.push_back(query.number());
    return lots;
}

std::vector<std::int64_t> all_lot_ids(Database& database) {
    std::vector<std::int64_t> lots;
    Query query(database, "SELECT id FROM lot ORDER BY id");
    while (query.next()) lots.push_back(query.number());
    return lots;
}

void add_total_faults(Database& database, std::vector<std::string>& faults) {
    Query all(database, "SELECT ifnull(sum(value), 0) FROM kind_value");
    all.next();
    const std::int64_t lost = all.number();
    if (lost != 0)
        faults.push_back(
            fmt::format("the shop does not add up: {} in value is unaccounted for", lost));
    Query made(database, "SELECT value FROM kind_value WHERE kind = 'made' AND value <> 0");
    if (made.next())
        faults.push_back(fmt::format("journals and what they were made of differ by {} in value",
                                     made.number()));
}

std::vector<std::string> faults_since(Database& database, std::int64_t movement) {
    std::vector<std::string> faults;
    for (const std::int64_t lot : lots_touched_since(database, movement))
        add_lot_faults(database, lot, faults);
    add_total_faults(database, faults);
    return faults;
}

} // namespace barrow::store
