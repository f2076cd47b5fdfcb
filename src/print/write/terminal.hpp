#pragma once

#include "print/blocks/blocks.hpp"

#include <cstddef>
#include <string>

namespace barrow::print {

/// Columns of a terminal for which screens are written.
inline constexpr std::size_t usual_columns = 100;

/// The answer as plain text, without colours, each line ending in a line break. Columns of tables
/// are two spaces apart and as wide as their widest cell (counted in columns, not bytes); where
/// the table is wider than `columns`, cells of columns that wrap go on in the lines below. Running
/// text is broken four columns before that. Every text passes through `harmless`. Drawings are
/// left out.
std::string terminal(const Blocks& blocks, std::size_t columns = usual_columns);

} // namespace barrow::print
