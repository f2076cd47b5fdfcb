#pragma once

#include "page/frame/visit.hpp"

namespace barrow::page {

/// The first page: what wants doing.
std::vector<Place> today_places();

} // namespace barrow::page
