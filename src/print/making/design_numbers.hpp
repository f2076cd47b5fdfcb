#pragma once

#include "base/length.hpp"
#include "print/blocks/blocks.hpp"
#include "workshop/making/designs.hpp"

namespace barrow::print {

/// Adds the numbers of a design: every name with how it came about, group by group; the cover with
/// its scores in order, and its drawing; the block; the binding with its marks.
void add_numbers(Blocks& blocks, const design::Worked& worked, base::Unit unit);

/// Adds what will not work at the bench, and what is not known, a line for each.
void add_warnings(Blocks& blocks, const design::Worked& worked);

} // namespace barrow::print
