#pragma once

#include "page/frame/visit.hpp"

namespace barrow::page {

/// Journals in hand, and fairs: what goes along, what is sold there, what came of it.
std::vector<Place> stall_places();

} // namespace barrow::page
