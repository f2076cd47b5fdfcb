#pragma once

#include "workshop/selling/journal_care.hpp"

namespace barrow::workshop {

/// `sell_journals` for use cases that are in a transaction already.
JournalsLeft sell_in_transaction(Context& context, const Serials& serials, const Selling& how);

} // namespace barrow::workshop
