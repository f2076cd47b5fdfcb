#pragma once

#include "page/server/http.hpp"

#include <optional>
#include <string>

namespace barrow::page {

/// The style sheet, the script or the picture at that path; nothing when it is none of them.
std::optional<Response> asset_at(const std::string& path);

} // namespace barrow::page
