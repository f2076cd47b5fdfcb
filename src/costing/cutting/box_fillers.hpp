#pragma once

#include "costing/cutting/cutting.hpp"
#include "costing/cutting/fillers.hpp"

#include <cstdint>
#include <vector>

namespace barrow::costing {

/// A material whose offcuts fillers may be cut from.
struct FillersWanted {
    const ShelfMaterial* material = nullptr;
    std::vector<FillerWant>
        fillers; ///< count: how many are still wanted, of all materials together
    std::vector<std::int64_t> spent; ///< ids of offcuts that are taken already
};

/// Cuts fillers that are still wanted from offcuts of the box. The smallest offcut goes first, of
/// equal ones the older, whichever of the materials it is of. It is filled with the best-valued
/// choice (layout::Goal::most_value) both of what each filler is worth and of what it is worth more
/// than the offcut it is cut from carries by area, and cut in the way that brings more; but only
/// when the fillers are worth more than it costs: what the offcut carries, less what the remnants
/// worth keeping carry back into the box (share_sheet), so that the fillers bear the waste. No more
/// of a filler is cut than is wanted, of all materials together.
///
/// One plan for each material of which offcuts are taken, in the order given (CutPlan::from_box).
/// Each is proved by layout::check; one that fails the proof throws base::broken.
std::vector<CutPlan> fill_from_box(const std::vector<FillersWanted>& wanted,
                                   const CutOptions& options);

} // namespace barrow::costing
