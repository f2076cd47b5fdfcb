#pragma once

#include "print/blocks/blocks.hpp"
#include "workshop/making/what_fits.hpp"

#include <string>

namespace barrow::print {

/// Which parts of designs fit into the offcuts of the box.
Blocks blocks(const workshop::Fits& fits);
std::string screen(const workshop::Fits& fits);
/// JSON: "fits".
std::string document(const workshop::Fits& fits);

} // namespace barrow::print
