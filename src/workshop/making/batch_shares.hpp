#pragma once

#include "base/money.hpp"
#include "base/wide.hpp"
#include "store/making/batches.hpp"

#include <cstdint>
#include <map>
#include <vector>

namespace barrow::workshop {

/// Divides what really was taken of a material as it was planned: by planned cost; of a material
/// that is free, by quantity.
std::vector<base::Money> share_as_planned(base::Money taken, const std::vector<base::Wide>& costs,
                                          const std::vector<base::Wide>& quantities);

/// What each part really took, beside the parts: what was taken of each material (by id) is shared
/// among the parts that use it. What no part uses is left out.
std::vector<base::Money> share_among_parts(const std::map<std::int64_t, base::Money>& taken,
                                           const std::vector<store::BatchPart>& parts);

} // namespace barrow::workshop
