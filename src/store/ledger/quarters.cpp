#include "store/ledger/quarters.hpp"

#include "store/file/rows.hpp"

#include <fmt/format.h>

#include <chrono>
#include <optional>
#include <utility>

namespace barrow::store {
namespace {

using Key = std::pair<std::int64_t, std::int64_t>; // holder, lot

/// The latest quarter kept at or before `day`; empty when there is none.
std::string quarter_before(Database& database, const base::Date& day) {
    Query query(database, "SELECT max(day) FROM quarter WHERE day <= ?", day);
    query.next();
    return query.text(); // empty where there is none
}

void snapshot(Database& database, const std::string& day) {
    const auto run = [&](const char* text) { execute(database, text, day); };
    run("INSERT INTO quarter (day) VALUES (?)");
    // Holders 1 to 4 are the shop's own; all others hold what is there.
    run("INSERT INTO quarter_balance (day, holder_id, lot_id, quantity, value) "
        "SELECT ?, holder_id, lot_id, quantity, value FROM balance WHERE holder_id > 4");
    run("INSERT INTO quarter_value (day, kind, value) SELECT ?, kind, value FROM kind_value");
}

constexpr const char* movements_between =
    "SELECT from_holder, f.kind, to_holder, t.kind, ifnull(lot_id, 0), quantity, value "
    "FROM posting JOIN movement ON posting_id = posting.id "
    "JOIN holder f ON f.id = from_holder JOIN holder t ON t.id = to_holder "
    "WHERE made_on > ? AND made_on <= ?";

struct Moved {
    std::int64_t from;
    std::string from_kind;
    std::int64_t to;
    std::string to_kind;
    std::int64_t lot;
    std::int64_t quantity;
    base::Money value;
};

/// The next row of `movements_between`.
std::optional<Moved> next_moved(Query& row) {
    if (!row.next()) return std::nullopt;
    return Moved{row.number(), row.text(),   row.number(), row.text(),
                 row.number(), row.number(), row.money()};
}

bool is_live(const std::string& kind) {
    return kind == "shelf" || kind == "offcut" || kind == "batch" || kind == "journal";
}

} // namespace

base::Date end_of_quarter_before(const base::Date& date) {
    const std::chrono::year_month_day parts{date.day()};
    const unsigned month = static_cast<unsigned>(parts.month());
    const std::chrono::month first{(month - 1) / 3 * 3 + 1};
    return base::Date(std::chrono::sys_days(parts.year() / first / std::chrono::day{1})
                      - std::chrono::days{1});
}

void close_quarters(Database& database, const base::Date& made_on) {
    const std::string day = base::to_text(end_of_quarter_before(made_on));
    Query query(database, "SELECT max(made_on), (SELECT max(day) FROM quarter) "
                          "FROM posting");
    query.next();
    const std::string last_booked = query.text(); // both are empty where there is none
    const std::string last_kept = query.text();
    // Balances hold everything booked so far: they are those of that day only when nothing booked
    // is of a later one.
    if (last_booked.empty() || last_booked > day || last_kept >= day) return;
    snapshot(database, day);
}

std::vector<Balance> balances_on(Database& database, const base::Date& day) {
    const std::string quarter = quarter_before(database, day);
    std::map<Key, Balance> balances;
    Query kept(database,
               "SELECT holder_id, lot_id, quantity, value "
               "FROM quarter_balance WHERE day = ?",
               quarter);
    while (kept.next()) {
        const Balance balance{kept.number(), kept.number(), kept.number(), kept.money()};
        balances[{balance.holder, balance.lot}] = balance;
    }
    Query since(database, movements_between, quarter, day);
    while (const auto moved = next_moved(since)) {
        const auto add = [&](std::int64_t holder, const std::string& kind, int sign) {
            if (!is_live(kind)) return;
            Balance& balance = balances[{holder, moved->lot}];
            balance.holder = holder;
            balance.lot = moved->lot;
            balance.quantity += sign * moved->quantity;
            balance.value += base::Money::of_minor(sign * moved->value.minor());
        };
        add(moved->from, moved->from_kind, -1);
        add(moved->to, moved->to_kind, 1);
    }
    std::vector<Balance> result;
    for (const auto& [key, balance] : balances)
        if (balance.quantity != 0 || !balance.value.is_zero()) result.push_back(balance);
    return result;
}

std::map<std::string, base::Money> values_on(Database& database, const base::Date& day) {
    const std::string quarter = quarter_before(database, day);
    std::map<std::string, base::Money> values;
    Query kept(database, "SELECT kind, value FROM quarter_value WHERE day = ?", quarter);
    while (kept.next()) values.insert({kept.text(), kept.money()});
    Query since(database, movements_between, quarter, day);
    while (const auto moved = next_moved(since)) {
        values[moved->from_kind] -= moved->value;
        values[moved->to_kind] += moved->value;
    }
    return values;
}

std::vector<std::string> quarter_faults(Database& database) {
    std::vector<std::string> faults;
    Query query(
        database,
        "WITH moved AS ("
        "  SELECT day, to_holder AS holder, ifnull(lot_id, 0) AS lot, quantity, movement.value"
        "    FROM quarter JOIN posting ON made_on <= day JOIN movement ON posting_id = posting.id"
        "  UNION ALL SELECT day, from_holder, ifnull(lot_id, 0), -quantity, -movement.value"
        "    FROM quarter JOIN posting ON made_on <= day JOIN movement ON posting_id = posting.id),"
        " sums AS (SELECT day, holder, lot, sum(quantity) AS quantity, sum(value) AS value"
        "    FROM moved JOIN holder h ON h.id = holder"
        "    WHERE h.kind IN ('shelf', 'offcut', 'batch', 'journal') GROUP BY day, holder, lot)"
        "SELECT day, holder FROM sums LEFT JOIN quarter_balance b"
        "  USING (day) WHERE b.holder_id = holder AND b.lot_id = lot"
        "  AND (b.quantity <> sums.quantity OR b.value <> sums.value)"
        "UNION ALL SELECT day, holder FROM sums WHERE (quantity <> 0 OR value <> 0) AND NOT EXISTS"
        "  (SELECT 1 FROM quarter_balance b WHERE b.day = sums.day AND b.holder_id = holder"
        "   AND b.lot_id = lot)"
        "UNION ALL SELECT day, holder_id FROM quarter_balance b WHERE NOT EXISTS"
        "  (SELECT 1 FROM sums WHERE sums.day = b.day AND holder = holder_id AND lot = lot_id) "
        "LIMIT 20");
    while (query.next()) {
        const std::string day = query.text();
        faults.push_back(fmt::format("what holder {} had on {} is not what its movements say",
                                     query.number(), day));
    }
    Query kinds(database,
                "SELECT q.day, q.kind FROM quarter_value q WHERE q.value <> ("
                "  SELECT ifnull(sum(CASE WHEN t.kind = q.kind THEN m.value ELSE 0 END"
                "                  - CASE WHEN f.kind = q.kind THEN m.value ELSE 0 END), 0)"
                "  FROM posting JOIN movement m ON m.posting_id = posting.id"
                "  JOIN holder f ON f.id = m.from_holder JOIN holder t ON t.id = m.to_holder"
                "  WHERE made_on <= q.day)");
    while (kinds.next()) {
        const std::string day = kinds.text();
        faults.push_back(
            fmt::format("the total of {} on {} is not what its movements say", kinds.text(), day));
    }
    return faults;
}

} // namespace barrow::store
