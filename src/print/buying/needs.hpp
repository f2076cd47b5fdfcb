#pragma once

#include "print/blocks/blocks.hpp"
#include "workshop/buying/buying.hpp"

#include <string>

namespace barrow::print {

/// What to order, supplier by supplier, and orders on their way that may come too late.
Blocks blocks(const workshop::Reorder& reorder);
std::string screen(const workshop::Reorder& reorder);
/// JSON: "reorder".
std::string document(const workshop::Reorder& reorder);

} // namespace barrow::print
