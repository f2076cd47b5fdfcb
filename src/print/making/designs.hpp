#pragma once

#include "base/length.hpp"
#include "print/blocks/blocks.hpp"
#include "workshop/making/designs.hpp"

#include <string>
#include <vector>

namespace barrow::print {

/// The designs of the shop.
Blocks blocks(const std::vector<store::StoredDesign>& designs);
std::string screen(const std::vector<store::StoredDesign>& designs);
/// JSON: "designs".
std::string document(const std::vector<store::StoredDesign>& designs);

/// A design worked out: its numbers, its cover as a drawing, its parts, the work, cautions.
Blocks blocks(const design::Worked& worked, base::Unit unit);
std::string screen(const design::Worked& worked, base::Unit unit);
/// JSON: "design".
std::string document(const design::Worked& worked);

/// What a calculator answers: the numbers and the warnings, no parts.
Blocks calculation_blocks(const design::Worked& worked, base::Unit unit);
std::string calculation_screen(const design::Worked& worked, base::Unit unit);
/// JSON: "calculation".
std::string calculation_document(const design::Worked& worked);

} // namespace barrow::print
