#include "workshop/stock/bought.hpp"

namespace barrow::workshop {

Bought read_bought(Fields& fields, const store::Material& material) {
    Bought bought;
    const auto packs = fields.count("packs", 1, most_units);
    if (fields.has("units") == fields.has("packs")) {
        fields.complain("units", fields.has("units") ? "is given beside packs" : "is empty",
                        "say how many: either units or packs");
        return bought;
    }
    if (packs) {
        bought.units = *packs * material.pack_units;
        bought.packs = base::Rational(*packs);
        return bought;
    }
    const auto units = material.form == base::Form::bulk
                           ? fields.amount("units", material.bulk_unit == "g")
                           : fields.count("units", 1, most_units);
    if (!units) return bought;
    if (*units == 0) fields.complain("units", "is zero");
    bought.units = *units;
    bought.packs = base::Rational::of(*units, material.pack_units);
    return bought;
}

} // namespace barrow::workshop
