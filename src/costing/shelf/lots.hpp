#pragma once

#include "costing/shelf/shelf.hpp"

#include <map>
#include <optional>
#include <vector>

namespace barrow::costing {

/// A quantity and value taken from one lot. Under the moving average a lot may give value
/// without quantity: the things are taken from the oldest lot, their cost from all.
struct LotTake {
    std::int64_t lot = 0;
    std::int64_t quantity = 0;
    Money value;
};

/// Takes `quantity` (in the form's measure) from the lots, which are changed to what remains, the
/// oldest first. Value follows the cost order:
///  - first in, first out: each lot gives the share of its own value that goes with the quantity
///    (base::share, so a lot that is emptied gives exactly all it has left);
///  - moving average: the same share of the value of all lots together, each giving in
///    proportion to the value it still has; the last quantity takes all value.
/// With `only`, the things come from lots whose units have that size; the moving average is still
/// that of all lots. Requires 0 <= quantity <= sum of the quantities it may come from.
std::vector<LotTake> take_from(std::vector<ShelfLot>& lots, std::int64_t quantity, CostOrder order,
                               std::optional<StockSize> only = std::nullopt);

/// Takes just these quantities (by lot) from just these lots, as a plan that was kept says; values
/// as take_from finds them. Requires each lot to hold what is asked of it.
std::vector<LotTake> take_exactly(std::vector<ShelfLot>& lots,
                                  const std::map<std::int64_t, std::int64_t>& quantities,
                                  CostOrder order);

/// Sum of the lots' quantities.
std::int64_t on_hand(const std::vector<ShelfLot>& lots);

/// Sum of the values taken.
Money value_of(const std::vector<LotTake>& takes);

} // namespace barrow::costing
