#pragma once

#include "print/blocks/blocks.hpp"
#include "workshop/stock/stockroom.hpp"

#include <string>

namespace barrow::print {

/// What is on the shelf and in the offcut box, a line for each material.
Blocks blocks(const workshop::Stock& stock);
std::string screen(const workshop::Stock& stock);
/// JSON: "stock".
std::string document(const workshop::Stock& stock);

/// "4 (0.32 m2)": the offcuts of a material and what they measure together; empty when none.
std::string offcuts_text(const workshop::StockLine& line, base::Unit unit);

} // namespace barrow::print
