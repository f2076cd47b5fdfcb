#pragma once

#include "store/file/database.hpp"

#include <map>
#include <optional>
#include <string>

namespace barrow::store {

/// The shop's settings as text; what they mean is the workshop's business.
std::map<std::string, std::string> all_settings(Database& database);

/// Sets one, making it or replacing what it was.
void put_setting(Database& database, const std::string& name, const std::string& value);

} // namespace barrow::store
