#pragma once

#include "costing/cutting/cutting.hpp"

#include <utility>
#include <vector>

namespace barrow::costing {

/// The lots of one size, which the layout sees as one kind of sheet.
struct SizeGroup {
    StockSize size;
    std::vector<std::size_t> lots; ///< indices into ShelfMaterial::lots, oldest first
    std::int64_t units = 0;
};

/// A demand put to the layout engine: rectangles and numbers only, and what they stand for.
struct CuttingJob {
    layout::Job job;
    /// Beside job.stock: what it is, and its index into the material's offcuts (offcut) or into
    /// `groups` (lot; what goes beyond the units of the group must be bought).
    std::vector<std::pair<Source::Kind, std::size_t>> sources;
    std::vector<SizeGroup> groups;
    /// What a fresh unit counts, in thousandths of a minor unit.
    layout::Cost fresh_weight = 0;
};

/// What a sheet that must be bought first counts beside one on the shelf.
enum class Buying {
    after_the_shelf, ///< the same, or more than all the shelf where its sizes differ: that goes
                     ///< first
    twice,           ///< double: for choosing among papers, so that one on the shelf is preferred
    never,           ///< it is not to be had: for seeing whether shelf and offcuts will do
};

/// The piece a want stands for, turned crosswise where its grain asks for it, under the id
/// "p<number>"; count as wanted.
layout::Piece layout_piece(const CutWant& want, std::size_t number);

/// The job of a demand, as plan_cuts describes it. Pieces stand beside demand.cuts.
CuttingJob cutting_job(const Demand& demand, Buying buying);

} // namespace barrow::costing
