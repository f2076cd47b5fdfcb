#include "store/ledger/transaction.hpp"

#include "base/error.hpp"
#include "store/ledger/lot_checks.hpp"

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include <fmt/format.h>

namespace barrow::store {
namespace {

/// Id of the last movement there is, so that those written since can be told apart.
std::int64_t last_movement(SQLite::Database& sql) {
    return sql.execAndGet("SELECT ifnull(max(id), 0) FROM movement").getInt64();
}

} // namespace

void write(Database& database, Mode mode, const std::function<void()>& action) {
    if (database.read_only())
        throw base::Error(
            base::Kind::machine,
            fmt::format("the shop {} can only be looked at: it may not be written, or "
                        "its folder may not",
                        database.path().string()),
            "look at permissions, or copy it to a folder that can be written");
    guarded(database.path(), [&] {
        SQLite::Database& sql = database.sql();
        // Leaving the scope without commit, by an error or on purpose, rolls back.
        SQLite::Transaction transaction(sql, SQLite::TransactionBehavior::IMMEDIATE);
        const std::int64_t before = last_movement(sql);
        action();
        const auto faults = faults_since(database, before);
        if (!faults.empty()) throw base::broken(faults.front());
        if (mode == Mode::commit) transaction.commit();
    });
}

void read(Database& database, const std::function<void()>& action) {
    guarded(database.path(), [&] {
        if (sqlite3_get_autocommit(database.sql().getHandle()) == 0) return action();
        SQLite::Transaction transaction(database.sql(), SQLite::TransactionBehavior::DEFERRED);
        action();
    });
}

} // namespace barrow::store
