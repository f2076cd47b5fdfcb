#pragma once

#include "print/blocks/blocks.hpp"
#include "workshop/stock/leaving.hpp"
#include "workshop/stock/receive.hpp"

#include <string>
#include <vector>

namespace barrow::print {

/// Lots on the shelf.
Blocks blocks(const workshop::Lots& lots);
std::string screen(const workshop::Lots& lots);
/// JSON: "lots".
std::string document(const workshop::Lots& lots);

/// Lots just received.
Blocks blocks(const std::vector<workshop::Received>& received, const workshop::Settings& settings);
std::string screen(const std::vector<workshop::Received>& received,
                   const workshop::Settings& settings);

} // namespace barrow::print
