#include "store/file/migrate.hpp"

#include "base/error.hpp"
#include "store/file/database.hpp"
#include "store/file/embedded_sql.hpp"

#include <SQLiteCpp/Backup.h>
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
    SQLite::Transaction transaction(sql, SQLite::TransactionBehavior::IMMEDIATE);
    sql.exec(std::string(script.sql).c_str());
    if (script.number == 1) sql.exec(fmt::format("PRAGMA application_id = {}", application_id));
    set_version(sql, script.number);
    refuse_dangling(sql, script.name);
    transaction.commit();
}

void copy_before_migration(SQLite::Database& sql, const std::filesystem::path& path) {
    std::filesystem::path copy = path;
    copy += fmt::format(".before-v{}", newest_version());
    if (std::filesystem::exists(copy)) return; // of an attempt that was cut short: still good
    SQLite::Database target(copy.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    SQLite::Backup backup(target, sql);
    backup.executeStep(-1);
}

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

void migrate(SQLite::Database& sql, int to) {
    const int from = version_of(sql);
    // Has no effect inside a transaction, so it stands around them all.
    sql.exec("PRAGMA foreign_keys = OFF");
    try {
        for (const EmbeddedScript& script : migration_scripts())
            if (script.number > from && script.number <= to) run_migration(sql, script);
    } catch (...) {
        sql.exec("PRAGMA foreign_keys = ON");
        throw;
    }
    sql.exec("PRAGMA foreign_keys = ON");
}

void refuse_foreign(SQLite::Database& sql, const std::filesystem::path& path) {
    if (sql.execAndGet("PRAGMA application_id").getInt() != application_id)
        throw base::Error(base::Kind::shop,
                          fmt::format("{} is not a shop of this program", path.string()),
                          "name another file with --shop, or make a new shop with: barrow init");
    const int version = version_of(sql);
    if (version > newest_version())
        throw base::Error(base::Kind::shop,
                          fmt::format("the shop {} has version {}, this program knows up to {}",
                                      path.string(), version, newest_version()),
                          "it was written by a newer barrow: use that one");
}

void bring_up_to_date(SQLite::Database& sql, const std::filesystem::path& path) {
    if (version_of(sql) == newest_version()) return;
    copy_before_migration(sql, path);
    migrate(sql, newest_version());
}

} // namespace barrow::store
