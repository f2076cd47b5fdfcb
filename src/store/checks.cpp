#include "store/checks.hpp"

#include "store/quarters.hpp"

#include <fmt/format.h>

#include <array>

namespace barrow::store {
namespace {

/// A query that finds faults and how to tell of one: each row's columns fill the braces of `text`.
struct Check {
    std::string query;
    const char* text;
};

/// Lots touched by movements after ?1. The plus keeps SQLite from walking the index of lots, which
/// is as long as the ledger, in the place of the few movements.
constexpr const char* touched_lots = "(SELECT lot_id FROM movement WHERE id > ?1 "
                                     "AND +lot_id IS NOT NULL)";

/// Invariants of one lot, over a set of lots. A lot's receipts less returns, in quantity and cost,
/// must equal what all other holders have of it; that is so exactly when all movements of the lot
/// leave the outside owing it. The first movement must bring in what the lot says.
std::vector<Check> lot_checks(const std::string& lots) {
    return {
        {"SELECT lot.id, lot.quantity, ifnull(sum(movement.quantity), 0) FROM lot "
         "LEFT JOIN movement ON movement.lot_id = lot.id AND movement.kind = 'receive' "
         "WHERE lot.id IN "
             + lots
             + " GROUP BY lot.id "
               "HAVING lot.quantity <> ifnull(sum(movement.quantity), 0) "
               "OR lot.cost <> ifnull(sum(movement.value), 0)",
         "lot {} says it received {}, its movements say {}, or its cost differs"},
        {"SELECT m.lot_id, m.holder, m.quantity, m.value FROM ("
         "  SELECT lot_id, holder, sum(quantity) AS quantity, sum(value) AS value FROM ("
         "    SELECT lot_id, to_holder AS holder, quantity, value FROM movement"
         "      WHERE lot_id IN "
             + lots
             + "    UNION ALL SELECT lot_id, from_holder, -quantity, -value FROM movement"
               "      WHERE lot_id IN "
             + lots
             + "  ) GROUP BY lot_id, holder) m "
               "LEFT JOIN balance b ON b.holder_id = m.holder AND b.lot_id = m.lot_id "
               "WHERE m.quantity <> ifnull(b.quantity, 0) OR m.value <> ifnull(b.value, 0)",
         "lot {}: holder {} has {} worth {} by the movements, not so by its balance"},
        {"SELECT b.lot_id, sum(b.quantity), sum(b.value) FROM balance b "
         "WHERE b.lot_id IN "
             + lots
             + " GROUP BY b.lot_id "
               "HAVING sum(b.quantity) <> 0 OR sum(b.value) <> 0",
         "lot {} does not add up: {} and {} in value are unaccounted for"},
        {"SELECT offcut.code, b.quantity FROM balance b JOIN offcut ON offcut.id = b.holder_id "
         "WHERE b.lot_id IN "
             + lots
             + " AND b.quantity <> 0 AND (b.lot_id <> offcut.lot_id "
               "OR b.quantity > offcut.width * offcut.height "
               "OR (offcut.height > 1 AND b.quantity <> offcut.width * offcut.height))",
         "offcut {} holds {}, which does not fit its size or its lot"},
        {"SELECT b.lot_id, b.quantity FROM balance b JOIN lot ON lot.id = b.lot_id "
         "WHERE b.holder_id = lot.id AND lot.id IN "
             + lots + " AND b.quantity % (lot.unit_width * lot.unit_height) <> 0",
         "lot {} has {} on the shelf, which is not a whole number of units"},
    };
}

std::vector<std::string> run(Database& database, const Check& check, std::int64_t since) {
    std::vector<std::string> faults;
    SQLite::Statement query(database.sql(), check.query);
    if (query.getBindParameterCount() > 0) query.bind(1, since);
    while (query.executeStep() && faults.size() < 20) {
        std::array<std::string, 4> columns;
        for (int i = 0; i < query.getColumnCount() && i < 4; ++i)
            columns.at(static_cast<std::size_t>(i)) = query.getColumn(i).getString();
        faults.push_back(
            fmt::format(fmt::runtime(check.text), columns[0], columns[1], columns[2], columns[3]));
    }
    return faults;
}

void run_all(Database& database, const std::vector<Check>& checks, std::int64_t since,
             std::vector<std::string>& faults) {
    for (const Check& check : checks) {
        const auto found = run(database, check, since);
        faults.insert(faults.end(), found.begin(), found.end());
    }
}

// The value of all holders together is nothing: what the outside gave is what the others have.
const Check totals_cancel = {"SELECT sum(value) FROM kind_value HAVING sum(value) <> 0",
                             "the shop does not add up: {} in value is unaccounted for"};

// What went into journals and the journals that came of it are worth the same.
const Check made_cancels = {"SELECT value FROM kind_value WHERE kind = 'made' AND value <> 0",
                            "journals and what they were made of differ by {} in value"};

const std::vector<Check>& whole_shop_checks() {
    static const std::vector<Check> checks = {
        totals_cancel,
        made_cancels,
        {"SELECT k.kind, k.value, ifnull(sum(b.value), 0) FROM kind_value k "
         "LEFT JOIN holder h ON h.kind = k.kind LEFT JOIN balance b ON b.holder_id = h.id "
         "GROUP BY k.kind HAVING k.value <> ifnull(sum(b.value), 0)",
         "the running total of {} is {}, its holders have {}"},
        {"SELECT value FROM received_value WHERE value <> "
         "(SELECT ifnull(sum(cost), 0) FROM lot) "
         "- (SELECT ifnull(sum(value), 0) FROM movement WHERE to_holder = 1) "
         "+ (SELECT ifnull(sum(value), 0) FROM movement "
         "   WHERE from_holder = 1 AND kind <> 'receive')",
         "the running total of what was received is {}, the lots and returns say otherwise"},
        {"SELECT holder_id, lot_id FROM balance WHERE may_owe = 0 AND (quantity < 0 OR value < 0)",
         "holder {} owes something of lot {}"},
        {"SELECT sum(quantity), sum(value) FROM balance WHERE lot_id = 0 "
         "HAVING sum(quantity) <> 0 OR sum(value) <> 0",
         "finished journals do not add up: {} journals and {} in value are unaccounted for"},
        {"SELECT b.holder_id, b.quantity FROM balance b JOIN holder h ON h.id = b.holder_id "
         "WHERE b.lot_id = 0 AND h.kind = 'journal' AND b.quantity <> 1",
         "journal {} is there {} times"},
        {"SELECT id, batch_id FROM cut_sheet WHERE pieces + kept + waste <> width * height "
         "OR kept_value > cost",
         "sheet {} of batch {} does not add up in area or value"},
        {"SELECT r.batch_id, r.run, r.materials, sum(j.materials) FROM finished_run r "
         "JOIN journal j ON j.posting_id = r.posting_id AND j.run = r.run "
         "GROUP BY r.posting_id, r.run HAVING r.materials <> sum(j.materials) "
         "OR r.labour <> sum(j.labour) OR r.overheads <> sum(j.overheads) "
         "OR r.journals <> count(*)",
         "run {1} of batch {0} cost {2} in materials, its journals {3}, or their labour differs"},
        {"SELECT batch.number, batch.status FROM batch WHERE status <> ifnull(("
         "  WITH RECURSIVE chain (start, id, standing) AS ("
         "    SELECT e.id, e.posting_id, 1 FROM batch_event e WHERE e.batch_id = batch.id"
         "    UNION ALL SELECT chain.start, p.id, 1 - standing FROM chain "
         "      JOIN posting p ON p.reverses = chain.id),"
         "  last_of (start, standing) AS (SELECT start, standing FROM chain c "
         "    WHERE NOT EXISTS (SELECT 1 FROM posting p WHERE p.reverses = c.id))"
         "  SELECT e.status FROM batch_event e JOIN last_of ON start = e.id "
         "  WHERE standing = 1 ORDER BY e.id DESC LIMIT 1), 'undone')",
         "batch {} says it is {}, its entries say otherwise"},
        {"SELECT number, status, sum(quantity), sum(value) FROM batch "
         "JOIN balance ON holder_id = batch.id WHERE status <> 'cut' GROUP BY batch.id",
         "batch {} is {} and yet holds {}, worth {}"},
        {"SELECT r.id, r.reverses FROM posting r JOIN movement m ON m.posting_id = r.reverses "
         "WHERE r.reverses IS NOT NULL AND NOT EXISTS (SELECT 1 FROM movement b "
         "WHERE b.posting_id = r.id AND b.from_holder = m.to_holder AND b.to_holder = "
         "m.from_holder "
         "AND b.lot_id IS m.lot_id AND b.quantity = m.quantity AND b.value = m.value)",
         "posting {} does not move back all that posting {} moved"},
    };
    return checks;
}

std::vector<std::string> file_faults(Database& database) {
    std::vector<std::string> faults;
    SQLite::Statement integrity(database.sql(), "PRAGMA integrity_check");
    while (integrity.executeStep()) {
        const std::string line = integrity.getColumn(0).getString();
        if (line != "ok") faults.push_back("the file is damaged: " + line);
    }
    SQLite::Statement keys(database.sql(), "PRAGMA foreign_key_check");
    while (keys.executeStep())
        faults.push_back(fmt::format("a row of {} refers to a row of {} that is not there",
                                     keys.getColumn(0).getString(), keys.getColumn(2).getString()));
    return faults;
}

} // namespace

std::vector<std::string> faults_since(Database& database, std::int64_t movement) {
    std::vector<std::string> faults;
    run_all(database, lot_checks(touched_lots), movement, faults);
    run_all(database, {made_cancels, totals_cancel}, movement, faults);
    return faults;
}

std::vector<std::string> all_faults(Database& database) {
    std::vector<std::string> faults = file_faults(database);
    run_all(database, lot_checks("(SELECT id FROM lot)"), 0, faults);
    run_all(database, whole_shop_checks(), 0, faults);
    const auto quarters = quarter_faults(database);
    faults.insert(faults.end(), quarters.begin(), quarters.end());
    return faults;
}

} // namespace barrow::store
