#pragma once

#include "page/frame/visit.hpp"

namespace barrow::page {

/// Materials and their lots, what came in, the offcut box, stocktakes.
std::vector<Place> stock_places();

} // namespace barrow::page
