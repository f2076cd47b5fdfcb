#pragma once

#include "base/rational.hpp"
#include "store/stock/catalogue.hpp"
#include "workshop/shared/fields.hpp"

#include <cstdint>
#include <optional>

namespace barrow::workshop {

/// How much of a material is bought, as a row says it.
struct Bought {
    std::int64_t units = 0; ///< sheets, rolls, strips, counted things; bulk: thousandths
    std::optional<base::Rational> packs; ///< the same in packs; nothing when it was not understood
};

/// Reads the field `units` ("20"; bulk: "250 ml") or `packs` of a row, exactly one of which must be
/// given, as problems of the row say otherwise.
Bought read_bought(Fields& fields, const store::Material& material);

} // namespace barrow::workshop
