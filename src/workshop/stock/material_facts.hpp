#pragma once

#include "base/length.hpp"
#include "design/recipe/facts.hpp"
#include "store/stock/catalogue.hpp"
#include "workshop/shared/fields.hpp"

#include <map>
#include <string>

namespace barrow::workshop {

/// Reads what designs reckon with out of a row: caliper, grammage, bulk, faces, repeat, pitch,
/// diameter, flap, spread, and the width and height of things that are not sheets. "-" makes a fact
/// unknown again; what does not go with the material's form is complained of. `unit` is for bare
/// lengths; grammage is in g/m2, bulk in cm3/g, pitch "2:1" or loops an inch, spread in ml or g on
/// a square metre.
void read_facts(Fields& fields, std::optional<base::Unit> bare, store::Material& material);

/// The same facts as text, by field, exactly as read_facts reads them; only those known.
std::map<std::string, std::string> fact_texts(const store::Material& material, base::Unit unit);

/// What is known of every material of the shop, for working designs out.
design::Facts facts_of(store::Database& database);

} // namespace barrow::workshop
