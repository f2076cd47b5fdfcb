#include "store/ledger/transaction.hpp"

#include "base/error.hpp"
#include "store/file/rows.hpp"
#include "store/ledger/lot_checks.hpp"

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include <fmt/format.h>

namespace barrow::store {
namespace {

/// Highest number in a table, so that rows added since can be told apart.
std::int64_t last_movement(Database& database) {
    return number_of(database, "SELECT ifnull(max(id), 0) FROM movement");
}

std::int64_t last_posting(Database& database) {
    return number_of(database, "SELECT ifnull(max(id), 0) FROM posting");
}

bool is_used(Database& database, const std::string& key) {
    return Query(database, "SELECT 1 FROM sent_once WHERE key = ?", key).next();
}

/// Keeps the key with the last entry written since `before`, if any was.
void keep_key(Database& database, const std::string& key, std::int64_t before) {
    execute(database,
            "INSERT INTO sent_once (key, posting_id) "
            "VALUES (?, (SELECT max(id) FROM posting WHERE id > ?))",
            key, before);
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
    guarded(database.path(), [&] { used = is_used(database, key); });
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
        // Leaving the scope without commit, by an error or on purpose, rolls back.
        SQLite::Transaction transaction(database.sql(), SQLite::TransactionBehavior::IMMEDIATE);
        const std::int64_t before = last_movement(database);
        const std::string& key = database.written_under();
        if (!key.empty() && is_used(database, key))
            throw base::refused("this was written already, and is not written a second time");
        const std::int64_t posting = key.empty() ? 0 : last_posting(database);
        action();
        if (!key.empty()) keep_key(database, key, posting);
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
