#pragma once

#include "base/length.hpp"

#include <optional>
#include <vector>

namespace barrow::costing {

/// One piece of a panel: from `start` for `width` along the panel.
struct PanelPiece {
    base::Length start;
    base::Length width;
};

/// Divides a panel of `width` at some of `folds` (ascending, inside the panel) into the fewest
/// pieces none of which is wider than `widest`. Every piece but the last reaches `overlap` beyond
/// its fold, under its right neighbour. Of divisions with as few pieces the one is taken whose
/// pieces, from the left, are as wide as can be: the last piece is then the smallest and leaves
/// the largest remnant. Nothing when no division will do.
std::optional<std::vector<PanelPiece>> divide_panel(base::Length width,
                                                    const std::vector<base::Length>& folds,
                                                    base::Length overlap, base::Length widest);

} // namespace barrow::costing
