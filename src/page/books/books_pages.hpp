#pragma once

#include "page/frame/visit.hpp"

namespace barrow::page {

/// The book: entries and taking them back, reports, settings, tables to keep, copies.
std::vector<Place> books_places();

} // namespace barrow::page
