#pragma once

#include "layout/job.hpp"
#include "store/catalogue.hpp"
#include "store/offcuts.hpp"
#include "workshop/context.hpp"
#include "workshop/settings.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace barrow::workshop {

/// Where an offcut lies, and a note; empty texts keep what is, "-" empties. No entry in the book:
/// nothing moved. Throws base::Error (Kind::bad_input) for a label there is not.
store::Offcut describe_offcut(Context& context, const std::string& label, const std::string& place,
                              const std::string& note);

/// Offcuts made of something, with their new labels.
struct NewOffcuts {
    std::int64_t posting = 0;
    std::vector<store::OffcutOnHand> offcuts;
    store::Material material;
};

/// Reads a size as the form has it: "120mm x 80mm", "40cm", "6" (loops). Throws base::Error.
base::StockSize read_size(base::Form form, const std::string& text, base::Unit unit,
                          const std::string& where);

/// Cuts an offcut into smaller ones, each with a label of its own; the old label is gone. Their
/// value is that of the old one, shared by area: what is lost bears none. Throws base::Error
/// (Kind::refused) when the sizes do not lie in the old one by straight cuts, or when a planned
/// batch has it reserved.
NewOffcuts split_offcut(Context& context, const std::string& label,
                        const std::vector<std::string>& sizes);

/// Logs an offcut the book does not know: a strip thought waste, found in the bin. Its quantity
/// comes out of what went into journals (or a batch in work) of that material; its value is
/// nothing, for the journals have paid for it. Throws base::Error (Kind::refused) when no lot of
/// the material had that much to lose.
NewOffcuts keep_found(Context& context, const std::string& material, const std::string& size,
                      const std::string& place);

/// One thing that could be cut from an offcut.
struct Fit {
    std::string offcut;   ///< label
    std::string material; ///< code
    base::Form form = base::Form::sheet;
    base::StockSize size;
    std::string design;
    std::string part;
    std::int64_t pieces = 0; ///< that fit, of this part alone
    base::Rational used;     ///< share of the offcut they use
    base::Money value;       ///< of the offcut
    long age_days = 0;
};

struct Fits {
    Settings settings;
    std::vector<Fit> lines;
    std::int64_t nothing_fits = 0; ///< offcuts from which no part of any design can be cut
};

/// What can be made from the box: for every offcut the parts of the shop's designs (with their
/// usual values and materials) that can be cut from it, the best use first (the larger share of
/// the offcut used; then the older offcut). Writes nothing.
Fits what_fits(store::Database& database, const base::Date& today);

} // namespace barrow::workshop
