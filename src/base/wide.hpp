#pragma once

#include <cstdint>
#include <optional>

namespace barrow::base {

/// 128-bit signed integer for products that must not overflow (an area times a price). GCC and
/// Clang have it; `__extension__` tells -Wpedantic that we know it is not ISO C++.
__extension__ typedef __int128 Wide;

/// Number divided by divisor, rounded to the nearest integer, exact halves away from zero
/// (the rule for money in Reg. (EC) 1103/97 Art. 5, extended to negatives by symmetry).
/// Requires divisor > 0.
Wide divide_half_away(Wide number, Wide divisor);

/// Largest integer not above number / divisor. Requires divisor > 0.
Wide divide_down(Wide number, Wide divisor);

/// Smallest integer not below number / divisor. Requires divisor > 0.
Wide divide_up(Wide number, Wide divisor);

/// The value as 64 bits, or nothing when it does not fit.
std::optional<std::int64_t> narrow(Wide value);

} // namespace barrow::base
