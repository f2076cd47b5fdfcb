#pragma once

#include "layout/plan.hpp"
#include "layout/tree/block.hpp"

#include <vector>

namespace barrow::layout {

/// Plans of the job for patterns of its instance: blocks drawn in true measures, cuts in order, and
/// kinds mapped back to entries of the job (a pattern is split where the entries of a kind change).
/// Requires that the patterns keep the limits of the instance.
std::vector<Plan> plans_of(const Job& job, const Instance& instance,
                           const std::vector<Pattern>& patterns);

} // namespace barrow::layout
