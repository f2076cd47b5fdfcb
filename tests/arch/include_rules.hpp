#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace barrow::test {

/// What a folder of src/ may include: whole folders ("base") or single headers of a folder
/// ("layout/solve.hpp"). Its own folder is always allowed.
struct FolderRule {
    std::string_view folder;
    std::vector<std::string_view> may_include;
};

/// Which rooms of its own layer a room (a folder one level down) may include. A layer without rows
/// has no rooms: all its files stand on its own floor.
struct RoomRule {
    std::string_view layer;
    std::string_view room;
    std::vector<std::string_view> may_include; ///< rooms of the same layer
};

/// What a library from outside is called in #include lines, and where it may be named. A place is
/// a folder ("store"), a folder with an ending ("cli .cpp"), or "everywhere".
struct LibraryRule {
    std::string_view prefix; ///< "SQLiteCpp/", "sqlite3.h"
    std::vector<std::string_view> places;
};

/// The tables of arrows of DEVELOPERS.md.
const std::vector<FolderRule>& folder_rules();
const std::vector<RoomRule>& room_rules();
const std::vector<LibraryRule>& library_rules();

/// What of one folder another may call by name (store::Database), where the header of its own that
/// it includes brings more along than it should use.
struct NameRule {
    std::string_view folder;
    std::string_view space;                 ///< "store"
    std::vector<std::string_view> may_name; ///< empty: nothing of it
};
const std::vector<NameRule>& name_rules();

/// Every #include of a file that no rule allows, in words with the line; empty when all is well.
/// `path` is below src/ ("costing/bill/bill.cpp"), `text` what the file holds.
std::vector<std::string> include_faults(std::string_view path, std::string_view text);

/// Every qualified name of another folder that no rule allows.
std::vector<std::string> name_faults(std::string_view path, std::string_view text);

} // namespace barrow::test
