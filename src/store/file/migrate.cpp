#include "store/file/migrate.hpp"

#include "base/error.hpp"
#include "store/file/copying.hpp"
#include "store/file/database.hpp"
#include "store/file/embedded_sql.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

#include <fmt/format.h>

#include <string>

namespace barrow::store {
namespace {

void set_version(SQLite::Database& sql, int version) {
    sql.exec(fmt::format("PRAGMA user_version = {}", version));
}

void refuse_dangling(SQLite::Database& sql, std::string_view name) {
    SQLite::Statement query(sql, "SELECT count(*) FROM pragma_foreign_key_check");
    query.executeStep();
    if (query.getColumn(0).getInt64() != 0)
        throw base::broken(fmt::format("the migration {} leaves rows that refer to nothing", name));
}

void run_migration(SQLite::Database& sql, const EmbeddedScript& script) {
    sql.exec(std::string(script.sql).c_str());
    if (script.number == 1) sql.exec(fmt::format("PRAGMA application_id = {}", application_id));
    set_version(sql, script.number);
    refuse_dangling(sql, script.name);
}

/// Foreign keys are off while it lives, as rebuilding a table needs. Has no effect inside a
/// transaction, so it stands around one.
class WithoutForeignKeys {
public:
    explicit WithoutForeignKeys(SQLite::Database& sql) : sql_(sql) {
        sql_.exec("PRAGMA foreign_keys = OFF");
    }
    ~WithoutForeignKeys() { sql_.tryExec("PRAGMA foreign_keys = ON"); }
    WithoutForeignKeys(const WithoutForeignKeys&) = delete;
    WithoutForeignKeys& operator=(const WithoutForeignKeys&) = delete;

private:
    SQLite::Database& sql_;
};

// Another program may be migrating a large shop just now: it is waited for, in milliseconds.
constexpr int migration_timeout_ms = 60'000;

} // namespace

int newest_version() {
    return migration_scripts().back().number;
}

int version_of(SQLite::Database& sql) {
    return sql.execAndGet("PRAGMA user_version").getInt();
}

void make_fresh(SQLite::Database& sql) {
    SQLite::Transaction transaction(sql, SQLite::TransactionBehavior::IMMEDIATE);
    for (const EmbeddedScript& script : schema_scripts()) sql.exec(std::string(script.sql).c_str());
    sql.exec(fmt::format("PRAGMA application_id = {}", application_id));
    set_version(sql, newest_version());
    transaction.commit();
}

void migrate(SQLite::Database& sql, int to, const std::function<void(int from)>& before) {
    const WithoutForeignKeys off(sql);
    SQLite::Transaction transaction(sql, SQLite::TransactionBehavior::IMMEDIATE);
    // Read under the lock: whoever opened the shop a moment earlier may have migrated it.
    const int from = version_of(sql);
    if (from >= to) return;
    if (before) before(from);
    for (const EmbeddedScript& script : migration_scripts())
        if (script.number > from && script.number <= to) run_migration(sql, script);
    transaction.commit();
}

void refuse_foreign(SQLite::Database& sql, const std::filesystem::path& path) {
    if (sql.execAndGet("PRAGMA application_id").getInt() != application_id)
        throw base::Error(base::Kind::shop,
                          fmt::format("{} is not a shop of this program", path.string()),
                          "name another file with --shop, or make a new shop with: barrow init");
    const int version = version_of(sql);
    if (version < 1)
        throw base::Error(base::Kind::shop,
                          fmt::format("the shop {} is damaged: it says it has version {}",
                                      path.string(), version),
                          "go back to a copy made with: barrow backup");
    if (version > newest_version())
        throw base::Error(base::Kind::shop,
                          fmt::format("the shop {} has version {}, this program knows up to {}",
                                      path.string(), version, newest_version()),
                          "it was written by a newer barrow: use that one");
}

void bring_up_to_date(SQLite::Database& sql, const std::filesystem::path& path, Older older) {
    if (version_of(sql) == newest_version()) return;
    sql.setBusyTimeout(migration_timeout_ms);
    migrate(sql, newest_version(), [&](int from) {
        if (older == Older::kept) keep_older_version(path, from);
    });
    sql.setBusyTimeout(busy_timeout_ms);
}

} // namespace barrow::store
