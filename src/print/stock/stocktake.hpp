#pragma once

#include "print/blocks/blocks.hpp"
#include "workshop/stock/stocktake.hpp"

#include <string>

namespace barrow::print {

/// A stocktake: what is counted so far, and how far that is from the book.
Blocks blocks(const workshop::CountSheet& sheet);
std::string screen(const workshop::CountSheet& sheet);
/// JSON: "stocktake".
std::string document(const workshop::CountSheet& sheet);

} // namespace barrow::print
