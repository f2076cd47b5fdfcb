#pragma once

#include "base/form.hpp"

#include <cstdint>
#include <string>

namespace barrow::print {

/// A quantity as a bare decimal for a spreadsheet: sheets in mm2 (to 0.001), lengths in mm, loops,
/// pieces, ml or g; quantity_unit names the unit (json/values.hpp).
std::string plain_quantity(base::Form form, std::int64_t quantity);

} // namespace barrow::print
