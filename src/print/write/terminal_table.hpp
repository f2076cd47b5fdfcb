#pragma once

#include "print/blocks/blocks.hpp"

#include <cstddef>
#include <string>

namespace barrow::print {

/// A table as plain text; see `terminal`.
std::string terminal_table(const Table& table, std::size_t columns);

} // namespace barrow::print
