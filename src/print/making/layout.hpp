#pragma once

#include "layout/plan.hpp"
#include "layout/solve.hpp"
#include "print/blocks/blocks.hpp"

#include <functional>
#include <string>

namespace barrow::print {

/// How the whole numbers of a job are written: a measure and a cost as exact decimal text.
struct LayoutNumbers {
    std::function<std::string(layout::Measure)> measure;
    std::function<std::string(layout::Cost)> cost;
};

/// The answer of `barrow layout`: a line for each plan, and how good it is.
Blocks layout_blocks(const layout::Job& job, const layout::Outcome& outcome,
                     const LayoutNumbers& numbers);
std::string layout_screen(const layout::Job& job, const layout::Outcome& outcome,
                          const LayoutNumbers& numbers);
/// JSON: "layout".
std::string layout_document(const layout::Job& job, const layout::Outcome& outcome,
                            layout::Effort effort, const LayoutNumbers& numbers);

} // namespace barrow::print
