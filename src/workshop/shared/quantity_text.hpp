#pragma once

#include "base/form.hpp"
#include "base/length.hpp"

#include <cstdint>
#include <string>

namespace barrow::workshop {

/// "3 sheets", "1 roll", "2 strips", "16 pieces", "250 ml": whole units as a person counts them.
std::string units_text(base::Form form, bool bulk_is_mass, std::int64_t units);

/// Word for one unit of the form: "sheet", "roll", "strip", "piece", "ml" or "g".
std::string unit_word(base::Form form, bool bulk_is_mass);

/// "12.5" of thousandths: a decimal without trailing zeros.
std::string thousandths_text(std::int64_t thousandths);

} // namespace barrow::workshop
