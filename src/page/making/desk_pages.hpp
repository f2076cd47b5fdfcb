#pragma once

#include "page/frame/visit.hpp"

namespace barrow::page {

/// The design desk: designs, and what one would cost and look like with other numbers and papers.
std::vector<Place> desk_places();

} // namespace barrow::page
