#pragma once

#include "base/length.hpp"
#include "workshop/making/designs.hpp"

#include <string>

namespace barrow::print {

/// The numbers of a design: every name with how it came about, group by group; the cover with its
/// scores in order; the block; the binding with its marks. Empty where a design has none of them.
std::string numbers_text(const design::Worked& worked, base::Unit unit);

/// What will not work at the bench, and what is not known, a line for each; empty when all is well.
std::string warnings_text(const design::Worked& worked);

/// What a calculator answers: the numbers, the warnings, and no parts.
std::string calculation_screen(const design::Worked& worked, base::Unit unit);
std::string calculation_document(const design::Worked& worked);

} // namespace barrow::print
