#pragma once

#include "costing/shelf.hpp"
#include "design/work_out.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace barrow::costing {

/// So many journals of one design, worked out.
struct Run {
    design::Worked design;
    std::int64_t journals = 0;
};

/// Which part of which run something is for.
struct Origin {
    std::size_t run = 0;
    std::size_t part = 0; ///< index into Run::design.parts
    friend auto operator<=>(const Origin&, const Origin&) = default;
};

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

/// All that the runs want of one material.
struct Demand {
    const ShelfMaterial* material = nullptr;
    std::vector<CutWant> cuts;     ///< for sheet, length and wire
    std::vector<PlainWant> plains; ///< for count and bulk
};

struct Bill {
    std::vector<Demand> demands; ///< in the order in which the parts first name their materials
    std::vector<std::string> warnings;
};

/// The bill of materials of the runs. Panels that no sheet of their material holds in one piece
/// are divided at the folds their part allows, into as few pieces as will do (see divide_panel).
///
/// Throws base::Error: Kind::bad_input for a material code the shop does not have (with the
/// nearest) or whose form does not fit the part; Kind::refused for a piece larger than every
/// sheet with no fold to join at.
Bill make_bill(const std::vector<Run>& runs, const std::vector<ShelfMaterial>& shelf);

} // namespace barrow::costing
