#include "costing/price/break_even.hpp"

#include "base/wide.hpp"

namespace barrow::costing {

std::optional<std::int64_t> break_even(base::Money fixed, base::Money contribution,
                                       std::int64_t number) {
    if (number <= 0 || contribution <= base::Money()) return std::nullopt;
    return base::narrow(
        base::divide_up(base::Wide{fixed.minor()} * number, base::Wide{contribution.minor()}));
}

} // namespace barrow::costing
