#pragma once

#include "costing/arrange/choosers.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace barrow::costing {

/// Which paper each chooser has in each journal of a run: [journal][chooser], beside `who`.
using Pairing = std::vector<std::vector<std::size_t>>;

/// Pairs papers up, journal by journal: `counts[i]` says how many journals of each paper (index
/// into the shelf) chooser `who[i]` has; they add up to `journals` for each. Choosers that must
/// differ do, in every journal. Journals with the same papers stand together as far as can be.
/// Nothing when there is no pairing (only possible where choosers do not all have to differ from
/// each other).
std::optional<Pairing>
pair_up(std::int64_t journals, const std::vector<std::size_t>& who,
        const std::vector<std::vector<std::pair<std::size_t, std::int64_t>>>& counts,
        const std::vector<Chooser>& choosers);

} // namespace barrow::costing
