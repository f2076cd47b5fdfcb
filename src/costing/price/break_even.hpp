#pragma once

#include "base/money.hpp"

#include <cstdint>
#include <optional>

namespace barrow::costing {

/// How many must be sold to cover a fixed cost, when `number` of them bring `contribution` together
/// over what each costs to make: the fixed cost divided by the contribution of one (the break-even
/// point in units; OpenStax, Principles of Accounting 2, ch. 3.2), rounded up to whole ones.
/// Nothing when the contribution is not above zero, or there are none: then no number of them
/// covers it.
std::optional<std::int64_t> break_even(base::Money fixed, base::Money contribution,
                                       std::int64_t number);

} // namespace barrow::costing
