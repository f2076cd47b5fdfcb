#pragma once

#include "store/stock/catalogue.hpp"

#include <cstdint>
#include <map>

namespace barrow::workshop {

/// What is there of a material, in the units its reorder level is kept in. What is cut along its
/// length (ribbon, wire) is there in rolls and strips whole and begun: its length or loops are
/// added up, and a part of a unit counts as one, since it lies there to be used. Of sheets, only
/// whole ones count; thousandths of what is poured.
std::int64_t units_there(const store::Material& material, std::int64_t shelf_quantity,
                         std::int64_t shelf_units, std::int64_t offcut_quantity);

/// What planned batches will use up, by material, in the form's measure: what they take less the
/// remnants they are planned to keep.
std::map<std::int64_t, std::int64_t> planned_use(store::Database& database);

} // namespace barrow::workshop
