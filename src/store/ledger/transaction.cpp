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

bool is_used(SQLite::Database& sql, const std::string& key) {
    SQLite::Statement query(sql, "SELECT 1 FROM sent_once WHERE key = ?");
    query.bind(1, key);
    return query.executeStep();
}

/// Keeps the key with the last entry written since `before`, if any was.
void keep_key(SQLite::Database& sql, const std::string& key, std::int64_t before) {
    SQLite::Statement insert(sql, "INSERT INTO sent_once (key, posting_id) VALUES "
                                  "(?, (SELECT max(id) FROM posting WHERE id > ?))");
    insert.bind(1, key);
    insert.bind(2, before);
    insert.exec();
}

} // namespace

Once::Once(Database& database, std::string key) : database_(database) {
    database_.write_under(std::move(key));
}

Once::~Once() {
    database_.write_under({});
}

bool was_written(Database& database, const std::string& key) {
    bool used = false;
    guarded(database.path(), [&] { used = is_used(database.sql(), key); });
    return used;
}

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
        const std::string& key = database.written_under();
        if (!key.empty() && is_used(sql, key))
            throw base::refused("this was written already, and is not written a second time");
        const std::int64_t posting =
            key.empty() ? 0 : sql.execAndGet("SELECT ifnull(max(id), 0) FROM posting").getInt64();
        action();
        if (!key.empty()) keep_key(sql, key, posting);
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
