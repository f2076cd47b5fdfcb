#pragma once

#include "costing/bill/arrangement.hpp"
#include "costing/bill/origin.hpp"
#include "costing/shelf/shelf.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace barrow::costing {

/// A rectangle, length or run of loops to be cut, for all journals of a run together.
struct CutWant {
    Origin origin;
    StockSize size;              ///< in the form's measure, as it lies upright on the journal
    std::int64_t count = 0;      ///< of all journals of the run
    std::size_t joint = 0;       ///< which of the pieces of a joined panel this is, from the left
    std::size_t joined_from = 1; ///< how many pieces the panel is made of; 1: no join
    base::Length starts_at;      ///< where the piece's left edge lies on its panel
    design::Turn turn = design::Turn::none; ///< as the part and the pattern allow together
    bool crosswise = false; ///< cut with width and height exchanged, so that its grain is right
};

/// A counted or poured quantity for all journals of a run together.
struct PlainWant {
    Origin origin;
    std::int64_t quantity = 0; ///< pieces, or thousandths of a millilitre or gram (rounded up)
};

/// All that the runs want of one material; what may come from offcuts only stands apart.
struct Demand {
    const ShelfMaterial* material = nullptr;
    std::vector<CutWant> cuts;            ///< for sheet, length and wire
    std::vector<PlainWant> plains;        ///< for count and bulk
    bool offcuts_only = false;            ///< never a fresh sheet
    std::vector<std::int64_t> spent = {}; ///< ids of offcuts that another demand has taken
};

struct Bill {
    /// In the order in which the parts first name their materials; of one material, what may come
    /// from offcuts only goes first.
    std::vector<Demand> demands;
    std::vector<std::string> warnings;
};

/// The bill of materials of the runs, as it was arranged who gets what (see arrange).
///
/// Throws base::Error (Kind::bad_input) for a material code the shop does not have (with the
/// nearest) or whose form does not fit the part.
Bill make_bill(const std::vector<Run>& runs, const std::vector<ShelfMaterial>& shelf,
               const Arrangement& arrangement);

/// Adds one kind of taking to demands (the wants of the ways a part is divided, or its quantity).
void add_to_demand(const Taken& taken, const Run& run, const ShelfMaterial& material,
                   Demand& demand);

} // namespace barrow::costing
