#pragma once

#include "base/form.hpp"
#include "base/length.hpp"
#include "layout/plan.hpp"
#include "print/blocks/blocks.hpp"

#include <string>

namespace barrow::print {

/// A measure of a form as it is set or counted: "201 mm", "7 loops".
std::string cut_measure(base::Form form, layout::Measure value, base::Unit unit);

/// How one sheet is cut, for the bench: a table of the trim and of each cut in order with the
/// measure to set; for lengths and loops, which are cut one after the other from the free end, one
/// line.
Content cut_steps(base::Form form, const layout::Plan& plan, const layout::Stock& stock,
                  base::Unit unit);

/// What is kept of it: "304.8 x 103.8 mm, 60 x 40 mm"; empty when nothing is.
std::string kept_sizes(base::Form form, const layout::Plan& plan, base::Unit unit);

/// Adds what across, up and "set to" mean, for all tables of cuts above.
void add_how_to_read(Blocks& blocks);

} // namespace barrow::print
