#pragma once

#include "page/frame/visit.hpp"

namespace barrow::page {

/// The bench: batches planned, cut, finished or given up.
std::vector<Place> bench_places();

} // namespace barrow::page
