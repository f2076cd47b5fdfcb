#pragma once

#include "layout/job.hpp"
#include "layout/plan.hpp"

#include <string>

namespace barrow::costing {

/// Passes only what the independent checker finds no fault with (layout::check); else throws
/// base::broken, which names `what` and the first fault.
void prove(const layout::Job& job, const layout::Outcome& outcome, const std::string& what);

} // namespace barrow::costing
