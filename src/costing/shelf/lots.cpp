#include "costing/shelf/lots.hpp"

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

/// Lets `things` (lots after the things were taken from them) give the averaged cost instead.
std::vector<LotTake> at_average_cost(std::vector<ShelfLot>& lots,
                                     const std::vector<ShelfLot>& things,
                                     std::vector<LotTake> takes) {
    Wide whole = 0;
    Wide part = 0;
    Money value;
    for (const ShelfLot& lot : lots) {
        whole += lot.quantity;
        value += lot.value;
    }
    for (LotTake& take : takes) {
        part += take.quantity;
        take.value = Money();
    }
    if (part == 0) return {};
    for (std::size_t i = 0; i < lots.size(); ++i) lots[i].quantity = things[i].quantity;
    charge_proportionally(lots, base::share(value, part, whole), takes);
    return takes;
}

} // namespace

std::vector<LotTake> take_from(std::vector<ShelfLot>& lots, std::int64_t quantity, CostOrder order,
                               std::optional<StockSize> only) {
    if (order == CostOrder::first_in_first_out) return take_oldest_first(lots, quantity, only);
    // The things themselves still come from the oldest lot; only their cost is averaged.
    std::vector<ShelfLot> things = lots;
    const auto takes = take_oldest_first(things, quantity, only);
    return at_average_cost(lots, things, takes);
}

std::vector<LotTake> take_exactly(std::vector<ShelfLot>& lots,
                                  const std::map<std::int64_t, std::int64_t>& quantities,
                                  CostOrder order) {
    std::vector<ShelfLot> things = lots;
    std::vector<LotTake> takes;
    for (ShelfLot& lot : things) {
        const auto wanted = quantities.find(lot.id);
        if (wanted == quantities.end()) continue;
        if (wanted->second > lot.quantity)
            throw base::broken("more was to be taken from a lot than it holds");
        const Money value = base::share(lot.value, wanted->second, lot.quantity);
        takes.push_back({lot.id, wanted->second, value});
        lot.quantity -= wanted->second;
        lot.value -= value;
    }
    if (order == CostOrder::moving_average) return at_average_cost(lots, things, takes);
    lots = things;
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
