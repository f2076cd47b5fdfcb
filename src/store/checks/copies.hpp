#pragma once

#include "store/file/database.hpp"

#include <filesystem>

namespace barrow::store {

/// Writes a consistent copy of an open shop to a new file (SQLite's online backup): others may go
/// on reading and writing meanwhile.
void copy_to(Database& database, const std::filesystem::path& to);

/// Throws base::Error (Kind::shop) unless the file is a sound shop: openable, of a known version,
/// without faults (see all_faults). Works on a copy, so the file itself is not touched.
void verify_copy(const std::filesystem::path& path);

/// Puts a copy of `from` in the place of `path`. When something is there it is first copied,
/// whole, to `keep`. The new file is complete on the disk before it takes the name, so a power cut
/// leaves either the old shop or the new.
void put_in_place(const std::filesystem::path& from, const std::filesystem::path& path,
                  const std::filesystem::path& keep);

} // namespace barrow::store
