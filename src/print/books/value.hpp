#pragma once

#include "print/blocks/blocks.hpp"
#include "workshop/stock/stockroom.hpp"

#include <string>

namespace barrow::print {

/// Where the money paid for materials is now.
Blocks blocks(const workshop::ShopValue& value);
std::string screen(const workshop::ShopValue& value);
/// JSON: "value".
std::string document(const workshop::ShopValue& value);

} // namespace barrow::print
