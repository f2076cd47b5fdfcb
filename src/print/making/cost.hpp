#pragma once

#include "print/blocks/blocks.hpp"
#include "workshop/making/cost.hpp"

#include <string>

namespace barrow::print {

/// Cost, price and what is short, for each run.
Blocks blocks(const workshop::Costing& costing);
std::string screen(const workshop::Costing& costing);
/// JSON: "cost".
std::string document(const workshop::Costing& costing);

/// The cut plan: each sheet with its cuts in order, what it gives and what is kept; drawings too.
Blocks bench_blocks(const workshop::Costing& costing);
std::string bench_sheet(const workshop::Costing& costing);

} // namespace barrow::print
