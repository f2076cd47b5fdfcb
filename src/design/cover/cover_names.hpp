#pragma once

#include <string>
#include <string_view>

namespace barrow::design {

/// True for a name that the cover itself gives to formulas behind "cover.", so that no panel can
/// bear it: length, height, fold, folds, finished, open, closed_width, closed_thickness.
bool is_cover_name(std::string_view name);

/// Those names for a message: "length, height, ... and closed_thickness".
std::string cover_name_list();

} // namespace barrow::design
