#pragma once

#include "base/date.hpp"
#include "base/form.hpp"
#include "base/length.hpp"
#include "base/money.hpp"
#include "design/recipe/design.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace barrow::costing {

using base::Form;
using base::Money;
using base::StockSize;
using base::Wide;

/// Part of a lot that may be used: what is still on the shelf of one receipt.
struct ShelfLot {
    std::int64_t id = 0;
    StockSize size;            ///< of one unit
    std::int64_t quantity = 0; ///< on hand, in the form's measure; whole units for cut forms
    Money value;               ///< of that quantity
    base::Date received;
};

/// A remnant that may be used.
struct ShelfOffcut {
    std::int64_t id = 0;
    std::string code;
    StockSize size;
    Money value;
    std::int64_t age_days = 0;
    std::int64_t lot = 0; ///< the lot it came from
};

/// What must be trimmed off a sheet before it is cut.
struct Trim {
    base::Length left, right, top, bottom;
};

/// A material with everything of it that may be used, as the calculation sees it.
struct ShelfMaterial {
    std::int64_t id = 0;
    std::string code;
    std::string name;
    std::string collection;        ///< papers made to go together; may be empty
    std::optional<bool> two_faced; ///< patterned on both faces, where that is known
    Form form = Form::count;
    bool bulk_is_mass = false; ///< bulk in grams, not millilitres
    StockSize fresh;           ///< one unit as it is bought
    /// Minor units that one unit (bulk: a thousandth) costs to buy now, `freight` included, as far
    /// as known; a fraction, since a pack seldom divides evenly.
    std::optional<base::Rational> unit_price;
    base::Rational freight; ///< freight and tax to expect, as a share of what the goods cost
    design::Turn turn = design::Turn::none; ///< how far the pattern lets a piece be turned
    std::optional<design::Grain> grain;     ///< side of the fresh sheet the grain runs along
    Trim trim;
    base::Length kerf;
    StockSize least_useful{0, 0}; ///< smallest remnant worth keeping: shorter and longer side
    std::vector<ShelfLot> lots;   ///< in the order of receipt, oldest first
    std::vector<ShelfOffcut> offcuts;
};

/// How the cost of what is taken is found when lots differ in price (IAS 2 permits all three).
enum class CostOrder {
    first_in_first_out,
    moving_average,
};

} // namespace barrow::costing
