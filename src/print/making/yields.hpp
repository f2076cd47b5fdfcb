#pragma once

#include "print/blocks/blocks.hpp"
#include "workshop/making/yields.hpp"

#include <string>

namespace barrow::print {

/// Which fillers an offcut would give, how it would be cut, and a drawing of it.
Blocks blocks(const workshop::Yields& yields);
std::string screen(const workshop::Yields& yields);
/// JSON: "yields".
std::string document(const workshop::Yields& yields);

} // namespace barrow::print
