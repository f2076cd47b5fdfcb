#include "base/wide.hpp"

#include <limits>

namespace barrow::base {

Wide divide_half_away(Wide number, Wide divisor) {
    const bool negative = number < 0;
    const Wide size = negative ? -number : number;
    // Not (2 * size + divisor) / (2 * divisor): doubling could overflow where this cannot.
    Wide whole = size / divisor;
    const Wide rest = size % divisor;
    if (rest >= divisor - rest) ++whole;
    return negative ? -whole : whole;
}

Wide divide_down(Wide number, Wide divisor) {
    const Wide whole = number / divisor;
    return (number % divisor < 0) ? whole - 1 : whole;
}

Wide divide_up(Wide number, Wide divisor) {
    const Wide whole = number / divisor;
    return (number % divisor > 0) ? whole + 1 : whole;
}

std::optional<std::int64_t> narrow(Wide value) {
    if (value < std::numeric_limits<std::int64_t>::min()
        || value > std::numeric_limits<std::int64_t>::max())
        return std::nullopt;
    return static_cast<std::int64_t>(value);
}

} // namespace barrow::base
