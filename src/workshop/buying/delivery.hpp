#pragma once

#include "workshop/stock/receive.hpp"

#include <vector>

namespace barrow::workshop {

/// Books a delivery that may answer orders of the book: see receive in stock/receive.hpp.
std::vector<Received> receive(Context& context, const std::vector<Row>& rows,
                              costing::ShareBy share_by);

} // namespace barrow::workshop
