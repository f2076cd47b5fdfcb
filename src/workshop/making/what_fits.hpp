#pragma once

#include "base/form.hpp"
#include "base/money.hpp"
#include "base/rational.hpp"
#include "workshop/shared/context.hpp"
#include "workshop/shared/settings.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace barrow::workshop {

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
