#include "workshop/stock/levelling.hpp"

#include "store/ledger/totals.hpp"
#include "store/stock/lots.hpp"
#include "workshop/stock/shelf.hpp"

#include <algorithm>

namespace barrow::workshop {
namespace {

using base::Money;
using costing::ShelfLot;

/// Moves value between the lots until each has what it should. The givers give in order, the value
/// of the earliest lot first, to the first that still lack.
void move_until(store::Database& database, store::MovementWriter& writer,
                const std::vector<ShelfLot>& lots, const std::vector<Money>& wanted) {
    std::vector<Money> lacks(lots.size());
    for (std::size_t i = 0; i < lots.size(); ++i)
        lacks[i] = std::max(Money(), wanted[i] - lots[i].value);
    std::size_t taker = 0;
    for (std::size_t i = 0; i < lots.size(); ++i) {
        Money more = lots[i].value - wanted[i];
        if (more <= Money()) continue;
        for (store::Balance& pile : store::balances_of(database, lots[i].id)) {
            while (more > Money() && pile.value > Money()) {
                while (lacks[taker].is_zero()) ++taker;
                const Money part = std::min({more, pile.value, lacks[taker]});
                writer.move({0, 0, "level", pile.lot, lots[i].id, lots[taker].id, 0, part});
                more -= part;
                pile.value -= part;
                lacks[taker] -= part;
            }
        }
    }
}

Money write_off_rest(store::Database& database, store::MovementWriter& writer,
                     const std::vector<ShelfLot>& lots) {
    Money sum;
    for (const ShelfLot& lot : lots)
        for (const store::Balance& pile : store::balances_of(database, lot.id)) {
            writer.move({0, 0, "write_off", pile.lot, lot.id, store::written_off, 0, pile.value});
            sum += pile.value;
        }
    return sum;
}

std::vector<base::Wide> quantities(const std::vector<ShelfLot>& lots) {
    std::vector<base::Wide> all;
    all.reserve(lots.size());
    for (const ShelfLot& lot : lots) all.push_back(lot.quantity);
    return all;
}

void level(store::Database& database, store::MovementWriter& writer, std::int64_t material) {
    const auto lots = lots_of(database, material);
    if (costing::on_hand(lots) == 0) {
        write_off_rest(database, writer, lots);
        return;
    }
    Money value;
    for (const ShelfLot& lot : lots) value += lot.value;
    move_until(database, writer, lots, base::split(value, quantities(lots)));
}

} // namespace

std::vector<costing::LotTake> parts_of(store::Database& database, const costing::LotTake& take) {
    const auto piles = store::balances_of(database, take.lot);
    if (piles.size() == 1 && piles.front().lot == take.lot) return {take};
    std::vector<base::Wide> values;
    values.reserve(piles.size());
    for (const store::Balance& pile : piles) values.push_back(pile.value.minor());
    const auto shares = base::split(take.value, values);
    std::vector<costing::LotTake> parts;
    for (std::size_t i = 0; i < piles.size(); ++i)
        parts.push_back({piles[i].lot, piles[i].lot == take.lot ? take.quantity : 0, shares[i]});
    return parts;
}

void level_all(store::Database& database, store::MovementWriter& writer) {
    for (const auto& [material, units] : store::units_on_hand(database))
        level(database, writer, material);
}

void level_returned(store::Database& database, store::MovementWriter& writer,
                    const std::map<std::int64_t, costing::LotTake>& came_back) {
    std::set<std::int64_t> materials;
    for (const auto& [lot, back] : came_back)
        materials.insert(store::lot_by_id(database, lot).value().material_id);
    for (const std::int64_t material : materials) {
        const auto lots = lots_of(database, material);
        Money value;
        base::Wide quantity = 0;
        std::vector<base::Wide> quantities_back;
        std::vector<Money> wanted;
        for (const ShelfLot& lot : lots) {
            const auto found = came_back.find(lot.id);
            const costing::LotTake back =
                found == came_back.end() ? costing::LotTake() : found->second;
            value += back.value;
            quantity += back.quantity;
            quantities_back.push_back(back.quantity);
            wanted.push_back(lot.value - back.value);
        }
        if (quantity == 0) continue;
        const auto shares = base::split(value, quantities_back);
        for (std::size_t i = 0; i < lots.size(); ++i) wanted[i] += shares[i];
        move_until(database, writer, lots, wanted);
    }
}

Money level_emptied(store::Database& database, store::MovementWriter& writer,
                    const std::set<std::int64_t>& materials, bool moving_average) {
    Money written_off;
    for (const std::int64_t material : materials) {
        const auto lots = lots_of(database, material);
        if (costing::on_hand(lots) == 0) {
            written_off += write_off_rest(database, writer, lots);
            continue;
        }
        if (moving_average) continue;
        Money left;
        for (const ShelfLot& lot : lots)
            if (lot.quantity == 0) left += lot.value;
        if (left.is_zero()) continue;
        auto wanted = base::split(left, quantities(lots));
        for (std::size_t i = 0; i < lots.size(); ++i)
            if (lots[i].quantity > 0) wanted[i] += lots[i].value;
        move_until(database, writer, lots, wanted);
    }
    return written_off;
}

} // namespace barrow::workshop
