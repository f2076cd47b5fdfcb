#pragma once

#include "print/blocks/blocks.hpp"
#include "workshop/stock/stockroom.hpp"

#include <string>
#include <vector>

namespace barrow::print {

/// Entries in the book, a line each.
Blocks blocks(const std::vector<workshop::LogLine>& lines);
std::string screen(const std::vector<workshop::LogLine>& lines);
/// JSON: "log".
std::string document(const std::vector<workshop::LogLine>& lines);

} // namespace barrow::print
