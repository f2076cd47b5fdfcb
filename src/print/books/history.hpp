#pragma once

#include "print/blocks/blocks.hpp"
#include "workshop/books/history.hpp"

#include <string>

namespace barrow::print {

/// A history: one line for each thing that happened, with what was there then.
Blocks blocks(const workshop::History& history);
std::string screen(const workshop::History& history);

/// JSON: "history". Quantities are numbers in the unit named with them (of sheets mm2, of lengths
/// mm); "change" is "in", "out" or empty for what moved elsewhere.
std::string document(const workshop::History& history);

/// One row for each line; the sum of quantity_change (value_change) down to a row is its
/// quantity_after (value_after), of a batch in each material for itself.
std::string csv(const workshop::History& history);

} // namespace barrow::print
