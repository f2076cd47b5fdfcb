#pragma once

#include "base/form.hpp"
#include "base/length.hpp"
#include "layout/plan.hpp"

#include <functional>
#include <string>
#include <vector>

namespace barrow::print {

/// What a drawing says besides the rectangles.
struct DrawingWords {
    std::string title;               ///< over the drawing
    std::vector<std::string> pieces; ///< beside job.pieces: the name written on each
    std::function<std::string(layout::Measure)> measure; ///< how sizes are written
    std::string id = {}; ///< ends the names inside the picture; another for each picture of a page
};

/// How sizes of a form are written on drawings: loops as numbers, lengths short, in the unit.
std::function<std::string(layout::Measure)> drawn_measure(base::Form form, base::Unit unit);

/// One plan as an SVG 1.1 picture of about 640 by 640 pixels: the sheet to scale, lower left
/// corner at the lower left, pieces with their names and sizes, cuts numbered in their order,
/// offcuts to keep marked, waste hatched, margins greyed. Deterministic text.
std::string drawing(const layout::Job& job, const layout::Plan& plan, const DrawingWords& words);

} // namespace barrow::print
