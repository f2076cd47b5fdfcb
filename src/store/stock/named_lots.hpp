#pragma once

#include "store/stock/lots.hpp"

#include <cstdint>
#include <map>
#include <vector>

namespace barrow::store {

/// The lots with these ids and what is on their shelves (nothing: a quantity of zero), oldest
/// receipt first. Reads nothing of other lots. Every id must be one of a lot.
std::vector<LotOnShelf> named_lots(Database& database,
                                   const std::map<std::int64_t, std::int64_t>& ids);

} // namespace barrow::store
