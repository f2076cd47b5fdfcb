#pragma once

#include "costing/shelf.hpp"
#include "store/catalogue.hpp"
#include "store/database.hpp"

namespace barrow::workshop {

/// Everything of a material that may be used, read out of the store for the calculation. Offcut
/// ages are counted to `today`.
costing::ShelfMaterial shelf_of(store::Database& database, const store::Material& material,
                                const base::Date& today);

} // namespace barrow::workshop
