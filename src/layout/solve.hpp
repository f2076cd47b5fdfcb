#pragma once

#include "layout/options.hpp"
#include "layout/plan.hpp"

namespace barrow::layout {

/// Solves the job. The same job and effort give the same answer, byte for byte: no clock, no
/// threads, and random numbers only from a generator with a fixed definition and seed.
///
/// Aims of least_cost, in this order:
/// 1. least stock cost, over all sheets;
/// 2. among the offcuts used, the least total area, then the greatest total age, then those listed
/// first in the stock: optimal for the cut trees found (only the choice of offcut for each cut tree
/// changes, not the trees);
/// 3. on each sheet, the most useful remnants (area above Job::useful, large rectangles preferred);
/// 4. fewest cuts, then fewest changes of measure on the trimmer.
/// Demand is met exactly. Requires examine(job) to be empty; throws base::Error otherwise.
Outcome solve(const Job& job, const Options& options = {});

} // namespace barrow::layout
