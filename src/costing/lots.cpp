#include "costing/lots.hpp"

#include "base/error.hpp"

#include <algorithm>

namespace barrow::costing {
namespace {

std::vector<LotTake> take_oldest_first(std::vector<ShelfLot>& lots, std::int64_t quantity,
                                       const std::optional<StockSize>& only) {
    std::vector<LotTake> takes;
    for (ShelfLot& lot : lots) {
        if (quantity == 0) break;
        if (only && lot.size != *only) continue;
        const std::int64_t part = std::min(quantity, lot.quantity);
        if (part == 0) continue;
        const Money value = base::share(lot.value, part, lot.quantity);
        takes.push_back({lot.id, part, value});
        lot.quantity -= part;
        lot.value -= value;
        quantity -= part;
    }
    if (quantity != 0) throw base::broken("more was to be taken from the lots than they hold");
    return takes;
}

/// Lets the lots give `value` together, each in proportion to what it has.
void charge_proportionally(std::vector<ShelfLot>& lots, Money value, std::vector<LotTake>& takes) {
    std::vector<Wide> weights;
    weights.reserve(lots.size());
    for (const ShelfLot& lot : lots) weights.push_back(lot.value.minor());
    const std::vector<Money> shares = base::split(value, weights);
    for (std::size_t i = 0; i < lots.size(); ++i) {
        if (shares[i].is_zero()) continue;
        lots[i].value -= shares[i];
        const auto own = std::find_if(takes.begin(), takes.end(),
                                      [&](const LotTake& take) { return take.lot == lots[i].id; });
        if (own != takes.end()) {
            own->value = shares[i];
        } else {
            takes.push_back({lots[i].id, 0, shares[i]});
        }
    }
}

} // namespace

std::vector<LotTake> take_from(std::vector<ShelfLot>& lots, std::int64_t quantity,
                               CostOrder order, std::optional<StockSize> only) {
    if (order == CostOrder::first_in_first_out) return take_oldest_first(lots, quantity, only);
    Wide whole = 0;
    Money value;
    for (const ShelfLot& lot : lots) {
        whole += lot.quantity;
        value += lot.value;
    }
    if (quantity == 0) return {};
    const Money taken = base::share(value, quantity, whole);
    // The things themselves still come from the oldest lot; only their cost is averaged.
    std::vector<ShelfLot> things = lots;
    std::vector<LotTake> takes = take_oldest_first(things, quantity, only);
    for (LotTake& take : takes) take.value = Money();
    for (std::size_t i = 0; i < lots.size(); ++i) lots[i].quantity = things[i].quantity;
    charge_proportionally(lots, taken, takes);
    return takes;
}

std::int64_t on_hand(const std::vector<ShelfLot>& lots) {
    std::int64_t sum = 0;
    for (const ShelfLot& lot : lots) sum += lot.quantity;
    return sum;
}

Money value_of(const std::vector<LotTake>& takes) {
    Money sum;
    for (const LotTake& take : takes) sum += take.value;
    return sum;
}

} // namespace barrow::costing
