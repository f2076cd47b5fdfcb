#pragma once

#include "base/error.hpp"
#include "costing/shelf/lots.hpp"
#include "costing/shelf/shelf.hpp"
#include "store/file/database.hpp"
#include "store/stock/catalogue.hpp"
#include "workshop/shared/settings.hpp"

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace barrow::workshop {

/// Everything of a material that may be used, read out of the store for the calculation: what is
/// there less what planned batches have reserved (by holder, see store::reserved). Offcut ages are
/// counted to `today`.
costing::ShelfMaterial shelf_of(store::Database& database, const store::Material& material,
                                const base::Date& today,
                                const std::map<std::int64_t, std::int64_t>& reserved);

/// How far a pattern lets a piece be turned, and the side the grain runs along, if it is known.
design::Turn turn_of(store::Pattern pattern);
std::optional<design::Grain> grain_of(const std::string& grain);

/// The lots of a material as they are, reserved or not.
std::vector<costing::ShelfLot> lots_of(store::Database& database, std::int64_t material_id);

/// The lots with these ids as they are, oldest first; reads nothing of the material's other lots.
std::vector<costing::ShelfLot> lots_named(store::Database& database,
                                          const std::map<std::int64_t, std::int64_t>& ids);

/// What planned batches have reserved, by holder (store::reserved).
using Reserved = std::map<std::int64_t, std::int64_t>;

/// Whole units of a lot that no planned batch has reserved.
std::int64_t free_units(const costing::ShelfLot& lot, const Reserved& reserved);

/// Takes whole units (sheets, rolls, strips, counted things; thousandths of bulk) from lots, the
/// oldest first, whatever sizes the lots have, those reserved last; their cost in the shop's cost
/// order. Nothing, and the lots unchanged, when there are not so many.
std::optional<std::vector<costing::LotTake>> take_units(std::vector<costing::ShelfLot>& lots,
                                                        std::int64_t units, CostOrder order,
                                                        const Reserved& reserved);

/// The refusal to take what planned batches have reserved of these lots or offcuts: "`fault`
/// reserved for batch 3", and how to free it.
base::Error reserved_for(store::Database& database, const std::vector<std::int64_t>& holders,
                         const std::string& fault);

} // namespace barrow::workshop
