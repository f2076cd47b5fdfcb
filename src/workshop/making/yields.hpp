#pragma once

#include "costing/cutting/cutting.hpp"
#include "costing/cutting/filling.hpp"
#include "store/stock/catalogue.hpp"
#include "store/stock/offcuts.hpp"
#include "workshop/shared/context.hpp"
#include "workshop/shared/settings.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace barrow::workshop {

/// A filler of a design that may be cut from the offcut's material.
struct YieldLine {
    std::string design; ///< code
    std::string filler;
    base::StockSize size;    ///< as it lies upright
    base::Rational worth;    ///< of one, in units of the currency
    std::int64_t alone = 0;  ///< how many the offcut gives of this filler alone
    std::int64_t chosen = 0; ///< how many of the best-valued choice
};

/// What fillers one offcut gives.
struct Yields {
    Settings settings;
    store::OffcutOnHand offcut;
    store::Material material;
    long age_days = 0;
    std::string only;                       ///< code of the design that was asked; empty: all
    std::vector<std::int64_t> reserved_for; ///< numbers of planned batches
    std::vector<YieldLine> lines;           ///< in the order of the designs and of their fillers
    std::vector<std::string> left_out;      ///< codes of designs that cannot be worked out
    /// The best-valued choice: pieces of `choice.job` stand for lines[choice.which[...]].
    /// `choice.plan()` is null when nothing goes into the offcut.
    costing::Filled choice;
    costing::SheetUse sheet; ///< the offcut cut so: what is kept of it, and with what value
    base::Rational worth;    ///< of all that is chosen, in units of the currency
    base::Money pays;        ///< what the fillers bear: the offcut's value less what is kept
    std::vector<std::string> hazards;
};

struct HowToFill {
    std::string design; ///< only fillers of this design; empty: of all designs of the shop
    std::optional<std::int64_t> at_most; ///< of each filler
    layout::Effort effort = layout::Effort::normal;
};

/// What fillers can be made from an offcut: of the designs of the shop (with their usual values;
/// those that cannot be worked out as they stand are named and left out) how many of each alone,
/// and the choice of them that is worth most together, with its cuts. Writes nothing. Throws
/// base::Error: Kind::bad_input for a label or design there is not, Kind::refused for an offcut
/// that is used up; for a design that was named, as work_out does.
Yields yields(store::Database& database, const std::string& label, const HowToFill& how,
              const base::Date& today);

} // namespace barrow::workshop
