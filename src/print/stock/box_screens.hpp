#pragma once

#include "workshop/stock/leaving.hpp"
#include "workshop/stock/offcut_box.hpp"
#include "workshop/stock/stocktake.hpp"

#include <map>
#include <string>
#include <vector>

namespace barrow::print {

/// Screens and documents of lots, the offcut box and stocktakes.
std::string screen(const workshop::Lots& lots);
std::string screen(const workshop::NewOffcuts& made, const workshop::Settings& settings);
std::string screen(const workshop::CountSheet& sheet);
/// Offcuts with the labels to write on them; `materials` by id.
std::string labels(const std::vector<store::Offcut>& offcuts,
                   const std::map<std::int64_t, store::Material>& materials, base::Unit unit);

std::string document(const workshop::Lots& lots);
std::string document(const workshop::CountSheet& sheet);

} // namespace barrow::print
