#pragma once

#include "base/length.hpp"
#include "workshop/making/designs.hpp"

#include <string>

namespace barrow::print {

/// The cover as an SVG 1.1 picture of about 900 pixels across, lying flat, outside up: panels with
/// their names and widths, score lines with their measures from the left edge, numbered in the
/// order to score (dashed: closes inwards; dotted: outwards, scored from the other side), the holes
/// or stations of the binding, the grain, and the outer sizes. Deterministic text. Requires a
/// cover.
std::string cover_drawing(const design::Worked& worked, base::Unit unit);

} // namespace barrow::print
