#pragma once

#include "costing/shelf/shelf.hpp"
#include "layout/solve.hpp"

#include <vector>

namespace barrow::costing {

/// One rectangle (length, strip) filled for the greatest value together.
struct Filled {
    layout::Job job;
    layout::Outcome outcome;
    std::vector<std::size_t> which; ///< beside job.pieces: index into the pieces given

    /// How it is cut; null when nothing goes into it.
    const layout::Plan* plan() const;
};

/// A job with the material's way of cutting (lengths or sheets, what a cut destroys, the least
/// remnant worth keeping), and nothing in it yet.
layout::Job bare_job(const ShelfMaterial& material);

/// The best-valued choice of the pieces (layout::Goal::most_value) in a rectangle that has no edge
/// to trim off. Pieces that may not be cut any more (count 0) or bring nothing (value 0 or below)
/// are left out. `like` says how is cut, as bare_job does; its stock and pieces do not count. The
/// answer is proved by layout::check; one that fails the proof throws base::broken.
Filled fill_rectangle(const layout::Job& like, const StockSize& size,
                      const std::vector<layout::Piece>& pieces, layout::Effort effort);

/// How many pieces of one kind, at most its count, the rectangle gives when nothing else is cut
/// from it; 0 where that cannot be asked of the engine (layout::examine). Proved likewise.
std::int64_t number_from(const layout::Job& like, const StockSize& size, layout::Piece piece);

/// The same choice, but of the ways to cut it that are tried the one that keeps the most: the
/// engine places the pieces somewhere, and where few go into much, what is left may lie in strips
/// too small to keep. So the pieces chosen are also laid into the narrowest and the lowest part of
/// the rectangle that still holds them, which is cut off first.
Filled fill_sparingly(const layout::Job& like, const StockSize& size,
                      const std::vector<layout::Piece>& pieces, layout::Effort effort);

} // namespace barrow::costing
