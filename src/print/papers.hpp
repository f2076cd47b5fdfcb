#pragma once

#include "workshop/cost.hpp"

#include <cstddef>
#include <string>

namespace barrow::print {

/// Which journals of a run have which papers, where the design leaves a choice; else nothing.
std::string papers_text(const workshop::Costing& costing, std::size_t run);

} // namespace barrow::print
