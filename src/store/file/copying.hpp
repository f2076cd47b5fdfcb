#pragma once

#include "store/file/scratch.hpp"

namespace SQLite {
class Database;
}

namespace barrow::store {

/// How long one connection waits for another before it gives up, in milliseconds.
inline constexpr int busy_timeout_ms = 5'000;

/// Copies all of an open database into a scratch file, as it is at one moment: others may go on
/// reading and writing. Afterwards the copy stands alone, without any side file. Throws
/// SQLite::Exception when the source cannot be read, base::Error (see guarded) naming `shown` when
/// the copy cannot be written.
void copy_all(SQLite::Database& from, const Scratch& to, const std::filesystem::path& shown);

/// Puts all of `from` into the database `to` in one transaction of SQLite: cut short, `to` is what
/// it was. Throws SQLite::Exception.
void replace_all(SQLite::Database& from, SQLite::Database& to);

/// Keeps a copy of the shop `path`, which has the older version `version`, beside it as
/// `<path>.version-<version>`. When another copy has that name, `-2`, `-3`, ... is added, unless
/// it is the same to the byte. The copy has its name only when it is whole, sound and on the disk.
/// Throws base::Error: Kind::shop when the shop is damaged, else Kind::machine.
void keep_older_version(const std::filesystem::path& path, int version);

} // namespace barrow::store
