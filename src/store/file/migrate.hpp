#pragma once

#include <filesystem>

namespace SQLite {
class Database;
}

namespace barrow::store {

/// The version a shop of today has: the number of the last migration.
int newest_version();

/// The version a file says it has (PRAGMA user_version).
int version_of(SQLite::Database& sql);

/// Runs the files of schema/ in an empty file, in one transaction.
void make_fresh(SQLite::Database& sql);

/// Runs migrations (from + 1) to `to`, each in one transaction that also sets the version. With
/// foreign keys off meanwhile, as rebuilding a table needs, and checked before each commit.
void migrate(SQLite::Database& sql, int to);

/// Throws base::Error (Kind::shop) when the file is no shop of this program, is empty, or comes
/// from a newer version; both versions are named.
void refuse_foreign(SQLite::Database& sql, const std::filesystem::path& path);

/// Migrates an older shop after copying it to `<path>.before-v<N>`, N being the new version.
void bring_up_to_date(SQLite::Database& sql, const std::filesystem::path& path);

} // namespace barrow::store
