#pragma once

#include "costing/bill/bill.hpp"

#include <string>
#include <vector>

namespace barrow::costing {

/// "part "outside paper" of quayside", for messages.
std::string title_of(const Run& run, std::size_t part);

/// Index of a material of the shelf, whatever the case of its code. Throws base::Error
/// (Kind::bad_input, at `where`) with the nearest code.
std::size_t material_index(const std::vector<ShelfMaterial>& shelf, const std::string& code,
                           const std::string& where);

/// Whether a part can be taken from a material kept in that form (bulk: by mass or by volume).
bool form_fits(const design::WorkedPart& part, const ShelfMaterial& material);

/// Throws base::Error (Kind::bad_input, at `where`) when it cannot.
void refuse_other_form(const design::WorkedPart& part, const ShelfMaterial& material,
                       const std::string& where);

/// Whether the grain a part asks for cannot be had: it runs the other way on this material, and
/// the pattern does not let the piece be turned.
bool grain_is_lost(const design::WorkedPart& part, const ShelfMaterial& material);

/// A want for the whole part with its direction settled: how far the piece may be turned on this
/// material, and whether its grain asks for it to be cut crosswise. A part that says its turn
/// decides; otherwise the pattern does. Count 0.
CutWant want_for(const design::WorkedPart& part, const ShelfMaterial& material,
                 const Origin& origin);

/// What sheets (unless `offcuts_only`) and offcuts of the material leave room for along the width
/// of a want of that height, widest first, each once.
std::vector<base::Length> widths_for(const CutWant& want, const ShelfMaterial& material,
                                     bool offcuts_only);

/// The bill's demand for a material, made if there is none yet; what may come from offcuts only has
/// its own, which stands before the other. Good until the next one is made.
Demand& demand_for(Bill& bill, const ShelfMaterial& material, bool offcuts_only);

/// Quantity of one of a counted or poured part: pieces, or thousandths of ml or g (exact).
base::Rational plain_quantity(const design::WorkedPart& part);

} // namespace barrow::costing
