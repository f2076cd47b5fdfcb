#include "store/checks/checks.hpp"

#include "store/ledger/decisions.hpp"
#include "store/ledger/lot_checks.hpp"
#include "store/ledger/quarters.hpp"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <array>

namespace barrow::store {
namespace {

/// A query that finds faults and how to tell of one: each row's columns fill the braces of `text`.
struct Check {
    std::string query;
    const char* text;
};

constexpr std::size_t most_told = 100;

std::vector<std::string> run(Database& database, const Check& check) {
    std::vector<std::string> faults;
    SQLite::Statement query(database.sql(), check.query);
    while (query.executeStep() && faults.size() < 20) {
        std::array<std::string, 4> columns;
        for (int i = 0; i < query.getColumnCount() && i < 4; ++i)
            columns.at(static_cast<std::size_t>(i)) = query.getColumn(i).getString();
        faults.push_back(
            fmt::format(fmt::runtime(check.text), columns[0], columns[1], columns[2], columns[3]));
    }
    return faults;
}

void run_all(Database& database, const std::vector<Check>& checks,
             std::vector<std::string>& faults) {
    for (const Check& check : checks) {
        const auto found = run(database, check);
        faults.insert(faults.end(), found.begin(), found.end());
    }
}

// Only under the moving average may a lot that is used up still have value, for the next use.
const Check nothing_left_is_worth_nothing = {
    "SELECT lot.id, sum(balance.value) FROM balance JOIN lot ON lot.id = holder_id "
    "GROUP BY lot.id HAVING sum(balance.quantity) = 0 AND sum(balance.value) <> 0",
    "nothing of lot {} is on the shelf, and yet it is worth {}"};

const std::vector<Check>& whole_shop_checks() {
    static const std::vector<Check> checks = {
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
        {"SELECT number, p.run, sum(last - first + 1), journals FROM batch_paper p "
         "JOIN batch ON batch.id = p.batch_id "
         "JOIN batch_run r ON r.batch_id = p.batch_id AND r.run = p.run "
         "GROUP BY p.batch_id, p.run, slot "
         "HAVING sum(last - first + 1) <> journals OR max(last) <> journals",
         "run {1} of batch {0} gives papers to {2} journals, and has {3}"},
        {"SELECT serial, slot FROM journal_paper JOIN journal j ON j.id = journal_id "
         "WHERE NOT EXISTS (SELECT 1 FROM batch_paper p WHERE p.batch_id = j.batch_id "
         "AND p.run = j.run AND p.slot = journal_paper.slot "
         "AND p.material_id = journal_paper.material_id)",
         "journal {} has a paper in {} that its batch gave to none"},
        {"SELECT r.lot_id, r.order_id FROM order_receipt r JOIN lot ON lot.id = r.lot_id "
         "JOIN supply_order o ON o.id = r.order_id "
         "WHERE lot.material_id <> r.material_id OR lot.supplier_id IS NOT o.supplier_id",
         "lot {} came for order {}, and is of another material or supplier"},
        {"SELECT id FROM supply_order o WHERE NOT EXISTS "
         "(SELECT 1 FROM order_line l WHERE l.order_id = o.id)",
         "order {} asks for nothing"},
        // What an entry founds, and the entries that belong to it: both kinds in one.
        {"WITH RECURSIVE grounds (what, posting_id, later) AS ("
         "  SELECT 'order ' || o.id, o.posting_id, e.posting_id FROM supply_order o "
         "    JOIN order_end e ON e.order_id = o.id UNION "
         "  SELECT 'order ' || o.id, o.posting_id, lot.posting_id FROM supply_order o "
         "    JOIN order_receipt r ON r.order_id = o.id JOIN lot ON lot.id = r.lot_id UNION "
         "  SELECT 'fair ' || f.id, f.posting_id, l.posting_id FROM fair f JOIN ("
         "    SELECT posting_id, fair_id FROM fair_cost UNION SELECT posting_id, fair_id "
         "    FROM fair_take UNION SELECT posting_id, fair_id FROM fair_sale) l "
         "    ON l.fair_id = f.id),"
         "chain (start, id, standing) AS ("
         "  SELECT posting_id, posting_id, 1 FROM ("
         "    SELECT posting_id FROM grounds UNION SELECT later FROM grounds)"
         "  UNION ALL SELECT chain.start, p.id, 1 - standing FROM chain "
         "    JOIN posting p ON p.reverses = chain.id),"
         "last_of (start, standing) AS (SELECT start, standing FROM chain c "
         "  WHERE NOT EXISTS (SELECT 1 FROM posting p WHERE p.reverses = c.id))"
         "SELECT g.later, g.what FROM grounds g JOIN last_of first ON first.start = g.posting_id "
         "JOIN last_of after ON after.start = g.later "
         "WHERE first.standing = 0 AND after.standing = 1",
         "entry {} belongs to {}, which was taken back"},
        {"SELECT f.posting_id, fair_id FROM fair_sale f WHERE NOT EXISTS "
         "(SELECT 1 FROM sale WHERE sale.posting_id = f.posting_id)",
         "entry {} sold nothing at fair {}, and is said to have"},
        // Between two holders, both ways against each other: what went there and back within one
        // entry is not moved again.
        {"SELECT r.id, r.reverses FROM posting r WHERE r.reverses IS NOT NULL AND EXISTS ("
         "  SELECT 1 FROM (SELECT * FROM movement WHERE posting_id = r.reverses UNION ALL "
         "    SELECT * FROM movement WHERE posting_id = r.id AND kind = 'reverse') "
         "  GROUP BY lot_id, min(from_holder, to_holder), max(from_holder, to_holder) "
         "  HAVING sum(CASE WHEN from_holder < to_holder THEN quantity ELSE -quantity END) <> 0 "
         "  OR sum(CASE WHEN from_holder < to_holder THEN value ELSE -value END) <> 0)",
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

std::vector<std::string> all_faults(Database& database) {
    std::vector<std::string> faults = file_faults(database);
    for (const std::int64_t lot : all_lot_ids(database))
        if (faults.size() < most_told) add_lot_faults(database, lot, faults);
    add_total_faults(database, faults);
    run_all(database, whole_shop_checks(), faults);
    if (cost_order(database).value_or("") != "moving-average")
        run_all(database, {nothing_left_is_worth_nothing}, faults);
    const auto quarters = quarter_faults(database);
    faults.insert(faults.end(), quarters.begin(), quarters.end());
    return faults;
}

} // namespace barrow::store
