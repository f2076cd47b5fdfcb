#pragma once

#include "costing/bill/origin.hpp"
#include "costing/shelf/shelf.hpp"
#include "layout/job.hpp"

#include <cstdint>
#include <vector>

namespace barrow::costing {

/// Proven: no way to give papers out and to join panels weighs less than this (first aim of
/// arrange, over all pieces cut from sheets, lengths and wire; what is counted or poured is left
/// out). 0 where nothing better can be said. `work` as in layout::joint_bound.
layout::Cost arrangement_bound(const std::vector<Run>& runs,
                               const std::vector<ShelfMaterial>& shelf, std::int64_t work);

} // namespace barrow::costing
