#pragma once

#include "layout/joint/joint.hpp"

#include <cstdint>

namespace barrow::layout {

/// Proven lower bound on the cost of the sheets of all jobs together, whatever is chosen; 0 when
/// nothing better was found.
///
/// The bound of the linear program over patterns and choices (JointLp). Where each job can take
/// only few different shares of the choices, a second program over those shares, which cost whole
/// sheets, raises it (Dantzig & Wolfe, Oper. Res. 8 (1960)). `work` bounds the effort, in units of
/// work.
Cost joint_bound(const JointQuestion& question, std::int64_t work);

} // namespace barrow::layout
