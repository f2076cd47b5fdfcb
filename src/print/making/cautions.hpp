#pragma once

#include "print/blocks/blocks.hpp"

#include <string>
#include <vector>

namespace barrow::print {

/// The caution of each hazard named; empty when there are none.
Cautions cautions(const std::vector<std::string>& hazards);

} // namespace barrow::print
