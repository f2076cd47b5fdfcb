#include "costing/joins.hpp"

namespace barrow::costing {

using base::Length;

std::optional<std::vector<PanelPiece>> divide_panel(Length width, const std::vector<Length>& folds,
                                                    Length overlap, Length widest) {
    // Taking each piece as wide as it will go reaches at least as far, with each number of
    // pieces, as any other choice does: so greedy gives the fewest.
    std::vector<PanelPiece> pieces;
    Length start;
    while (width - start > widest) {
        Length end = start;
        for (const Length fold : folds)
            if (fold > end && fold + overlap - start <= widest) end = fold;
        if (end == start) return std::nullopt;
        pieces.push_back({start, end + overlap - start});
        start = end;
    }
    pieces.push_back({start, width - start});
    return pieces;
}

} // namespace barrow::costing
