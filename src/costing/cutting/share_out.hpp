#pragma once

#include "costing/cutting/cutting.hpp"

#include <cstdint>
#include <vector>

namespace barrow::costing {

/// What is kept of a sheet that is cut so, with its value, and how the sheet's measure divides into
/// pieces, what is kept and waste; its source, size and cost are given. Each remnant carries its
/// share by area, as far as the shop's rule lets it (share_sheet); what is left of a length or wire
/// offcut keeps its code.
void share_out_sheet(SheetUse& sheet, const ShelfMaterial& material, const layout::Plan& plan,
                     const base::Rational& offcut_share);

/// An offcut of the material that is cut so: shared out as above, as a sheet of what it carries.
SheetUse cut_offcut(std::int64_t id, const StockSize& size, Money value,
                    const ShelfMaterial& material, const layout::Plan& plan,
                    const base::Rational& offcut_share);

/// What the pieces of a sheet pay: its cost less what the remnants kept carry.
Money paid_by_pieces(const SheetUse& sheet);

/// What the pieces of one want cost.
struct WantCost {
    Money from_new;
    Money from_offcuts;
    Money waste; ///< included in the two above
};

/// Divides what the sheets of a plan cost the pieces (their cost less the value of remnants kept)
/// among the wants by area, sheet by sheet. Shares are added up as exact fractions over all sheets
/// and rounded once at the end by largest remainder, so that they add up to the cost exactly and
/// no part pays every sheet's odd penny. Beside plan.wants.
std::vector<WantCost> share_among_wants(const CutPlan& plan);

/// Divides `total` among plain wants by quantity, exactly.
std::vector<Money> share_among_plains(Money total, const std::vector<PlainWant>& wants);

} // namespace barrow::costing
