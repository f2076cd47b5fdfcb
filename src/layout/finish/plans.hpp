#pragma once

#include "layout/plan.hpp"
#include "layout/tree/block.hpp"

#include <vector>

namespace barrow::layout {

/// Plans of the job for patterns of its instance: blocks drawn in true measures, cuts in order,
/// and kinds given back to the entries of the job they stand for (a pattern is split where the
/// entries of one kind change). Requires that the patterns keep the limits of the instance.
std::vector<Plan> plans_of(const Job& job, const Instance& instance,
                           const std::vector<Pattern>& patterns);

} // namespace barrow::layout
