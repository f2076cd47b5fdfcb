#include "workshop/stock/shelf.hpp"

#include "base/error.hpp"
#include "store/making/batch_plans.hpp"
#include "store/stock/lots.hpp"
#include "store/stock/named_lots.hpp"
#include "store/stock/offcuts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace barrow::workshop {
namespace {

using base::Length;
using base::Rational;

/// What one unit costs to buy now: the goods by the pack price, else as the last receipt had them,
/// and on top the share of freight and tax that it had, in whole tenths of a percent as it is
/// shown.
void price_to_buy(const store::Material& material, const std::optional<store::Lot>& last,
                  costing::ShelfMaterial& shelf) {
    const base::Money goods = last ? last->cost - last->extra : base::Money();
    if (material.pack_price)
        shelf.unit_price = Rational::of(material.pack_price->minor(), material.pack_units);
    else if (last)
        shelf.unit_price = Rational::of(
            goods.minor(), static_cast<std::int64_t>(last->quantity / last->unit.measure()));
    if (!shelf.unit_price || goods.is_zero()) return;
    const Rational tenths(
        base::share(last->extra, 1'000, goods.minor()).minor()); // of a percent of the goods
    shelf.freight = tenths / Rational(1'000);
    shelf.unit_price = *shelf.unit_price * (Rational(1) + shelf.freight);
}

costing::ShelfLot shelf_lot(const store::LotOnShelf& on_shelf) {
    return {on_shelf.lot.id, on_shelf.lot.unit, on_shelf.quantity, on_shelf.value,
            on_shelf.lot.received_on};
}

} // namespace

design::Turn turn_of(store::Pattern pattern) {
    switch (pattern) {
    case store::Pattern::none: return design::Turn::quarter;
    case store::Pattern::two_way: return design::Turn::half;
    case store::Pattern::one_way: return design::Turn::none;
    }
    throw base::broken("a pattern of no kind");
}

std::optional<design::Grain> grain_of(const std::string& grain) {
    if (grain == "width") return design::Grain::width;
    if (grain == "height") return design::Grain::height;
    return std::nullopt;
}

std::vector<costing::ShelfLot> lots_of(store::Database& database, std::int64_t material_id) {
    std::vector<costing::ShelfLot> lots;
    for (const store::LotOnShelf& on_shelf : store::lots_on_shelf(database, material_id))
        lots.push_back(shelf_lot(on_shelf));
    return lots;
}

std::vector<costing::ShelfLot> lots_named(store::Database& database,
                                          const std::map<std::int64_t, std::int64_t>& ids) {
    std::vector<costing::ShelfLot> lots;
    for (const store::LotOnShelf& on_shelf : store::named_lots(database, ids))
        lots.push_back(shelf_lot(on_shelf));
    return lots;
}

costing::ShelfMaterial shelf_of(store::Database& database, const store::Material& material,
                                const base::Date& today,
                                const std::map<std::int64_t, std::int64_t>& reserved) {
    costing::ShelfMaterial shelf;
    shelf.id = material.id;
    shelf.code = material.code;
    shelf.name = material.name;
    shelf.collection = material.collection;
    if (material.faces) shelf.two_faced = *material.faces == 2;
    shelf.form = material.form;
    shelf.bulk_is_mass = material.bulk_unit == "g";
    shelf.fresh = material.fresh;
    shelf.turn = turn_of(material.pattern);
    shelf.grain = grain_of(material.grain);
    shelf.trim = {Length::of_units(material.trim_left), Length::of_units(material.trim_right),
                  Length::of_units(material.trim_top), Length::of_units(material.trim_bottom)};
    shelf.kerf = Length::of_units(material.kerf);
    shelf.least_useful = material.least_useful;
    const auto lots = store::lots_on_shelf(database, material.id);
    price_to_buy(material, store::last_receipt(database, material.id), shelf);
    for (const store::LotOnShelf& on_shelf : lots) {
        costing::ShelfLot lot = shelf_lot(on_shelf);
        if (const auto taken = reserved.find(lot.id); taken != reserved.end() && lot.quantity > 0) {
            const std::int64_t part = std::min(taken->second, lot.quantity);
            lot.value -= base::share(lot.value, part, lot.quantity);
            lot.quantity -= part;
        }
        shelf.lots.push_back(lot);
    }
    for (const store::OffcutOnHand& there : store::offcuts_on_hand(database, material.id)) {
        if (reserved.count(there.offcut.id) > 0) continue;
        shelf.offcuts.push_back({there.offcut.id, there.offcut.code, there.offcut.size, there.value,
                                 base::days_between(there.offcut.kept_on, today),
                                 there.offcut.lot_id});
    }
    return shelf;
}

std::int64_t free_units(const costing::ShelfLot& lot, const Reserved& reserved) {
    const auto held = reserved.find(lot.id);
    const std::int64_t free = lot.quantity - (held == reserved.end() ? 0 : held->second);
    // A lot may hold less than is reserved of it, when a count found some of it missing.
    return static_cast<std::int64_t>(std::max<std::int64_t>(0, free) / lot.size.measure());
}

std::optional<std::vector<costing::LotTake>> take_units(std::vector<costing::ShelfLot>& lots,
                                                        std::int64_t units, CostOrder order,
                                                        const Reserved& reserved) {
    std::map<std::int64_t, std::int64_t> quantities;
    const auto take = [&](const costing::ShelfLot& lot, std::int64_t there) {
        const std::int64_t part = std::min(units, there);
        if (part > 0) quantities[lot.id] += static_cast<std::int64_t>(lot.size.measure() * part);
        units -= part;
    };
    for (const costing::ShelfLot& lot : lots) take(lot, free_units(lot, reserved));
    for (const costing::ShelfLot& lot : lots)
        take(lot, static_cast<std::int64_t>(lot.quantity / lot.size.measure())
                      - free_units(lot, reserved));
    if (units > 0) return std::nullopt;
    return costing::take_exactly(lots, quantities, costing_order(order));
}

base::Error reserved_for(store::Database& database, const std::vector<std::int64_t>& holders,
                         const std::string& fault) {
    std::set<std::int64_t> numbers;
    for (const std::int64_t holder : holders)
        for (const std::int64_t number : store::batches_reserving(database, holder))
            numbers.insert(number);
    const bool one = numbers.size() == 1;
    return base::refused(fmt::format("{} reserved for {} {}", fault, one ? "batch" : "batches",
                                     fmt::join(numbers, ", ")),
                         fmt::format("to free it, give {} up: barrow batch abandon {}",
                                     one ? "that batch" : "one of them",
                                     numbers.empty() ? 0 : *numbers.begin()));
}

} // namespace barrow::workshop
