#pragma once

#include "page/frame/visit.hpp"

namespace barrow::page {

/// What to order, orders on their way, parcels that came for them, suppliers.
std::vector<Place> buying_places();

} // namespace barrow::page
