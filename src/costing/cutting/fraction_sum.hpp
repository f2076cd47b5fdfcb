#pragma once

#include "base/money.hpp"
#include "base/wide.hpp"

#include <cstdint>
#include <map>
#include <vector>

namespace barrow::costing {

/// A sum of fractions that is never rounded on the way. Fractions of one divisor are added up under
/// it; only comparing and rounding bring different divisors together, in as many digits as that
/// takes.
class FractionSum {
public:
    /// Adds number / divisor. Requires 0 <= number < 2^126 and 0 < divisor < 2^63.
    void add(base::Wide number, base::Wide divisor);

    /// Largest whole number not above the sum; the nearest, halves up. Both must fit 64 bits.
    std::int64_t floor() const;
    std::int64_t rounded() const;

    /// Whether more is left above floor() here than there.
    static bool leaves_more(const FractionSum& a, const FractionSum& b);

private:
    std::int64_t whole_ = 0;
    std::map<std::int64_t, std::int64_t> parts_; ///< divisor to number, 0 < number < divisor
};

/// Amounts that add up to `total` exactly, each the sum beside it rounded down or up: what is left
/// after rounding down goes to the largest remainders, earlier ones first on a tie. Requires the
/// sums to add up to `total`.
std::vector<base::Money> round_to_total(base::Money total, const std::vector<FractionSum>& sums);

} // namespace barrow::costing
