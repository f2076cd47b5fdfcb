#include "store/ledger/quarters.hpp"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <chrono>
#include <utility>

namespace barrow::store {
namespace {

using Key = std::pair<std::int64_t, std::int64_t>; // holder, lot

/// The latest quarter kept at or before `day`; empty when there is none.
std::string quarter_before(Database& database, const base::Date& day) {
    SQLite::Statement query(database.sql(), "SELECT max(day) FROM quarter WHERE day <= ?");
    query.bind(1, base::to_text(day));
    query.executeStep();
    return query.getColumn(0).isNull() ? std::string() : query.getColumn(0).getString();
}

void snapshot(Database& database, const std::string& day) {
    const auto run = [&](const char* text) {
        SQLite::Statement statement(database.sql(), text);
        statement.bind(1, day);
        statement.exec();
    };
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
    SQLite::Statement query(database.sql(), "SELECT max(made_on), (SELECT max(day) FROM quarter) "
                                            "FROM posting");
    query.executeStep();
    if (query.getColumn(0).isNull()) return; // nothing was ever booked
    // Balances hold everything booked so far: they are those of that day only when nothing booked
    // is of a later one.
    if (query.getColumn(0).getString() > day) return;
    if (!query.getColumn(1).isNull() && query.getColumn(1).getString() >= day) return;
    snapshot(database, day);
}

std::vector<Balance> balances_on(Database& database, const base::Date& day) {
    const std::string quarter = quarter_before(database, day);
    std::map<Key, Balance> balances;
    SQLite::Statement kept(database.sql(), "SELECT holder_id, lot_id, quantity, value "
                                           "FROM quarter_balance WHERE day = ?");
    kept.bind(1, quarter);
    while (kept.executeStep()) {
        const Balance balance{kept.getColumn(0).getInt64(), kept.getColumn(1).getInt64(),
                              kept.getColumn(2).getInt64(),
                              base::Money::of_minor(kept.getColumn(3).getInt64())};
        balances[{balance.holder, balance.lot}] = balance;
    }
    SQLite::Statement since(database.sql(), movements_between);
    since.bind(1, quarter);
    since.bind(2, base::to_text(day));
    while (since.executeStep()) {
        const std::int64_t lot = since.getColumn(4).getInt64();
        const auto add = [&](int holder_column, int sign) {
            if (!is_live(since.getColumn(holder_column + 1).getString())) return;
            const std::int64_t holder = since.getColumn(holder_column).getInt64();
            Balance& balance = balances[{holder, lot}];
            balance.holder = holder;
            balance.lot = lot;
            balance.quantity += sign * since.getColumn(5).getInt64();
            balance.value += base::Money::of_minor(sign * since.getColumn(6).getInt64());
        };
        add(0, -1);
        add(2, 1);
    }
    std::vector<Balance> result;
    for (const auto& [key, balance] : balances)
        if (balance.quantity != 0 || !balance.value.is_zero()) result.push_back(balance);
    return result;
}

std::map<std::string, base::Money> values_on(Database& database, const base::Date& day) {
    const std::string quarter = quarter_before(database, day);
    std::map<std::string, base::Money> values;
    SQLite::Statement kept(database.sql(), "SELECT kind, value FROM quarter_value WHERE day = ?");
    kept.bind(1, quarter);
    while (kept.executeStep())
        values[kept.getColumn(0).getString()] = base::Money::of_minor(kept.getColumn(1).getInt64());
    SQLite::Statement since(database.sql(), movements_between);
    since.bind(1, quarter);
    since.bind(2, base::to_text(day));
    while (since.executeStep()) {
        const auto value = base::Money::of_minor(since.getColumn(6).getInt64());
        values[since.getColumn(1).getString()] -= value;
        values[since.getColumn(3).getString()] += value;
    }
    return values;
}

std::vector<std::string> quarter_faults(Database& database) {
    std::vector<std::string> faults;
    SQLite::Statement query(
        database.sql(),
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
    while (query.executeStep())
        faults.push_back(fmt::format("what holder {1} had on {0} is not what its movements say",
                                     query.getColumn(0).getString(),
                                     query.getColumn(1).getInt64()));
    SQLite::Statement kinds(
        database.sql(),
        "SELECT q.day, q.kind FROM quarter_value q WHERE q.value <> ("
        "  SELECT ifnull(sum(CASE WHEN t.kind = q.kind THEN m.value ELSE 0 END"
        "                  - CASE WHEN f.kind = q.kind THEN m.value ELSE 0 END), 0)"
        "  FROM posting JOIN movement m ON m.posting_id = posting.id"
        "  JOIN holder f ON f.id = m.from_holder JOIN holder t ON t.id = m.to_holder"
        "  WHERE made_on <= q.day)");
    while (kinds.executeStep())
        faults.push_back(fmt::format("the total of {1} on {0} is not what its movements say",
                                     kinds.getColumn(0).getString(),
                                     kinds.getColumn(1).getString()));
    return faults;
}

} // namespace barrow::store
