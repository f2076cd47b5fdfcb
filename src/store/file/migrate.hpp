#pragma once

#include <filesystem>
#include <functional>

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

/// Runs the migrations from the version the file has to `to` in one IMMEDIATE transaction, which
/// also sets the version. Foreign keys are off meanwhile, and checked after each step. `before` is
/// called with the version found, once the file is locked, unless there is nothing to do. It must
/// not write through `sql`.
void migrate(SQLite::Database& sql, int to, const std::function<void(int from)>& before = {});

/// Throws base::Error (Kind::shop) when the file is no shop of this program, is empty, has no
/// version, or comes from a newer program; both versions are named.
void refuse_foreign(SQLite::Database& sql, const std::filesystem::path& path);

/// Whether an older shop is kept as it is before it is migrated.
enum class Older { kept, not_kept };

/// Migrates an older shop, after a copy was made when `older` says so (see keep_older_version).
void bring_up_to_date(SQLite::Database& sql, const std::filesystem::path& path, Older older);

} // namespace barrow::store
