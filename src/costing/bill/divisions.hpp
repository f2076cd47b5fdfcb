#pragma once

#include "base/length.hpp"
#include "design/work/work_out.hpp"

#include <vector>

namespace barrow::costing {

/// One piece of a panel: from `start` for `width` along the panel.
struct PanelPiece {
    base::Length start;
    base::Length width;
};

/// One way to make a panel: of its pieces from the left, overlaps included.
using Division = std::vector<PanelPiece>;

/// The ways to make a part that are worth weighing, fewest pieces first, then wider pieces first:
///  - whole, when it is not wider than the widest of `widths`;
///  - divided at any of the places its joins allow, no piece wider than the widest of `widths`,
///  none
///    narrower (its overlap left out) than the part's least piece. With more than four places, only
///    ways with at most one piece more than the fewest.
/// Where it may be joined anywhere, the places weighed are those that make a piece exactly as wide
/// as one of `widths` (from the left or from the right) or all pieces alike, moved off faces that
/// must show no join.
/// `widths`: what the sheets and offcuts at hand leave room for, widest first. Empty when there is
/// no way.
std::vector<Division> divisions_of(const design::WorkedPart& part,
                                   const std::vector<base::Length>& widths);

} // namespace barrow::costing
