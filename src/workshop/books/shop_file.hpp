#pragma once

#include "base/date.hpp"
#include "store/file/database.hpp"

#include <filesystem>
#include <string>
#include <utility>
#include <vector>

namespace barrow::workshop {

/// Makes a new shop with the settings given (names as in settings.hpp; nothing is kept when one of
/// them is wrong). A cost order other than first in, first out is decided by an entry of `today`,
/// written at `recorded_at`. Throws base::Error (Kind::refused) when the file exists.
store::Database init(const std::filesystem::path& path,
                     const std::vector<std::pair<std::string, std::string>>& settings,
                     const base::Date& today, const std::string& recorded_at);

/// Writes a consistent copy of the shop, also while others use it. Throws base::Error
/// (Kind::refused) when `to` exists.
void backup(store::Database& database, const std::filesystem::path& to);

/// What restore did.
struct Restored {
    std::filesystem::path
        kept; ///< where the shop that was replaced is now; empty when there was none
};

/// Puts the copy `from` in the place of the shop at `path`. The copy is verified first (it must be
/// a sound shop, see check); the shop that was there is kept beside it under the name
/// `<path>.replaced-<stamp>`. Throws base::Error (Kind::shop) and changes nothing when the copy is
/// not sound.
Restored restore(const std::filesystem::path& path, const std::filesystem::path& from,
                 const std::string& stamp);

} // namespace barrow::workshop
