#pragma once

#include "print/blocks/blocks.hpp"
#include "workshop/shared/settings.hpp"

#include <string>
#include <vector>

namespace barrow::print {

/// The settings of the shop, and what each means.
Blocks blocks(const std::vector<workshop::SettingLine>& lines);
std::string screen(const std::vector<workshop::SettingLine>& lines);
/// JSON: "settings".
std::string document(const std::vector<workshop::SettingLine>& lines);

/// JSON of `check`: "check", with each problem found.
std::string check_document(const std::vector<std::string>& problems);

} // namespace barrow::print
