#pragma once

#include "store/file/database.hpp"

#include <filesystem>

namespace barrow::store {

/// Writes a consistent copy of an open shop to a new file, with the shop's permissions: others may
/// go on reading and writing meanwhile. The file is there only when it is whole and on the disk.
/// Throws base::Error: Kind::refused when `to` exists, Kind::machine when it cannot be written.
void copy_to(Database& database, const std::filesystem::path& to);

/// Puts what is in `from` in the place of the shop `path`.
///
/// A copy of `from`, with what stands in its journal or log, is brought up to date and verified
/// (see all_faults), and that copy is what is put in place. What was at `path` is kept, whole, as
/// `keep`. The shop is locked from the moment it is copied to `keep` until it holds the new
/// content, and the new content is written into the same file in one transaction of SQLite: nothing
/// booked meanwhile is lost, and a power cut leaves the old shop or the new one. Links and
/// permissions stay. A file that SQLite cannot read is renamed to `keep` as it is, with its side
/// files.
///
/// True when there was something at `path`. Throws base::Error: Kind::shop when `from` is no sound
/// shop, or when another program has `path` locked for longer than it is waited for; Kind::refused
/// when `keep` exists; Kind::machine when something cannot be read or written. The shop is what it
/// was then.
bool put_in_place(const std::filesystem::path& from, const std::filesystem::path& path,
                  const std::filesystem::path& keep);

} // namespace barrow::store
