#include "workshop/stock/leaving.hpp"

#include "base/error.hpp"
#include "base/short_code.hpp"
#include "base/text.hpp"
#include "costing/shelf/lots.hpp"
#include "store/books/history.hpp"
#include "store/ledger/ledger.hpp"
#include "store/making/batch_plans.hpp"
#include "workshop/shared/days.hpp"
#include "workshop/shared/fields.hpp"
#include "workshop/shared/quantity_text.hpp"
#include "workshop/stock/catalogue.hpp"
#include "workshop/stock/levelling.hpp"
#include "workshop/stock/shelf.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::workshop {
namespace {

/// Whole units (thousandths of bulk) as a person wrote them. Throws base::Error (bad_input).
std::int64_t read_units(const store::Material& material, const std::string& text) {
    Row row;
    row.fields["units"] = text;
    std::vector<base::Problem> problems;
    Fields fields(row, problems);
    const auto units = material.form == base::Form::bulk
                           ? fields.amount("units", material.bulk_unit == "g", true)
                           : fields.count("units", 1, most_units, true);
    throw_if_any(problems);
    if (*units == 0) throw base::bad_input("units", "is zero", "say how many");
    return *units;
}

std::string amount_text(const store::Material& material, std::int64_t units) {
    return units_text(material.form, material.bulk_unit == "g", units) + " of " + material.code;
}

bool under_average(store::Database& database) {
    return read_settings(database).cost_order == CostOrder::moving_average;
}

void require_reason(const Context& context) {
    if (base::trimmed(context.note).empty())
        throw base::refused("nothing is written off without a reason", "say why with --note");
}

/// Refuses to take more than is there, and what planned batches have reserved of it.
void require_free(store::Database& database, const store::Material& material,
                  const std::vector<costing::ShelfLot>& lots, std::int64_t wanted,
                  const Reserved& reserved) {
    const auto text = [&](std::int64_t units) {
        return units_text(material.form, material.bulk_unit == "g", units);
    };
    std::int64_t there = 0, free = 0;
    std::vector<std::int64_t> ids;
    for (const costing::ShelfLot& lot : lots) {
        there += static_cast<std::int64_t>(lot.quantity / lot.size.measure());
        free += free_units(lot, reserved);
        ids.push_back(lot.id);
    }
    if (there < wanted)
        throw base::refused(fmt::format("{} of {}: only {} on the shelf", text(wanted),
                                        material.code, text(there)));
    if (free < wanted)
        throw reserved_for(database, ids,
                           fmt::format("{} of {}: only {} free, the rest is", text(wanted),
                                       material.code, text(free)));
}

} // namespace

Lots lots(store::Database& database, const std::string& code) {
    return reading(database, [&] {
        Lots lots;
        lots.settings = read_settings(database);
        const store::Material material = material_called(database, code, "material");
        for (const store::LotOnShelf& there : store::lots_on_shelf(database, material.id)) {
            LotLine line{there, material.code, material.form, material.bulk_unit == "g", 0, 0, {}};
            line.received_units =
                static_cast<std::int64_t>(there.lot.quantity / there.lot.unit.measure());
            line.units = static_cast<std::int64_t>(there.quantity / there.lot.unit.measure());
            if (there.lot.supplier_id)
                line.supplier =
                    store::supplier_by_id(database, *there.lot.supplier_id).value().code;
            lots.lines.push_back(line);
        }
        return lots;
    });
}

namespace {

/// Moves what is sent back off the shelves: outside as far as it is paid for, else written off.
void move_back(store::Database& database, store::MovementWriter& writer,
               const std::vector<costing::LotTake>& takes, base::Money paid) {
    std::vector<base::Wide> values;
    for (const costing::LotTake& take : takes) values.push_back(take.value.minor());
    const auto shares = base::split(paid, values);
    for (std::size_t i = 0; i < takes.size(); ++i) {
        const costing::LotTake& take = takes[i];
        for (const costing::LotTake& part :
             parts_of(database, {take.lot, take.quantity, shares[i]}))
            writer.move(
                {0, 0, "return", part.lot, take.lot, store::outside, part.quantity, part.value});
        const base::Money lost = take.value - shares[i];
        if (lost.is_zero()) continue;
        for (const costing::LotTake& part : parts_of(database, {take.lot, 0, lost}))
            writer.move({0, 0, "write_off", part.lot, take.lot, store::written_off, 0, part.value});
    }
}

} // namespace

Left return_to_supplier(Context& context, std::int64_t lot_id, const std::string& text,
                        const std::string& refund) {
    return writing(context, [&] {
        store::Database& database = context.database;
        const auto lot = store::lot_by_id(database, lot_id);
        if (!lot)
            throw base::bad_input("lot", fmt::format("there is no lot {}", lot_id),
                                  "see: barrow lots CODE");
        const Settings settings = read_settings(database);
        const store::Material material = store::material_by_id(database, lot->material_id).value();
        const std::int64_t units = read_units(material, text);
        const auto quantity = static_cast<std::int64_t>(lot->unit.measure() * units);
        auto lots = lots_of(database, material.id);
        auto own = lots;
        std::erase_if(own, [&](const costing::ShelfLot& other) { return other.id != lot_id; });
        require_free(database, material, own, units, store::reserved(database));
        auto takes =
            costing::take_exactly(lots, {{lot_id, quantity}}, costing_order(settings.cost_order));
        std::sort(takes.begin(), takes.end(), [&](const auto& a, const auto& b) {
            const auto place = [&](std::int64_t id) {
                return std::find_if(lots.begin(), lots.end(),
                                    [id](const auto& one) { return one.id == id; });
            };
            return place(a.lot) < place(b.lot);
        });
        Left left;
        left.posting = post(context, "return", context.today);
        left.value = costing::value_of(takes);
        left.what = amount_text(material, units);
        left.refund = refund.empty() ? base::share(lot->cost - lot->extra, quantity, lot->quantity)
                                     : base::read_money(refund, settings.currency, "--refund");
        const base::Money paid = std::min(left.refund, left.value);
        left.beyond = left.refund - paid;
        store::MovementWriter writer(database, left.posting);
        move_back(database, writer, takes, paid);
        left.lost = left.value - paid
                    + level_emptied(database, writer, {material.id}, under_average(database));
        require_its_day(database, left.posting);
        return left;
    });
}

Left write_off_material(Context& context, const std::string& code, const std::string& text) {
    require_reason(context);
    return writing(context, [&] {
        store::Database& database = context.database;
        const store::Material material = material_called(database, code, "material");
        const std::int64_t units = read_units(material, text);
        auto lots = lots_of(database, material.id);
        const auto reserved = store::reserved(database);
        require_free(database, material, lots, units, reserved);
        const auto takes = take_units(lots, units, read_settings(database).cost_order, reserved);
        Left left;
        left.posting = post(context, "write off", context.today);
        left.what = amount_text(material, units);
        store::MovementWriter writer(database, left.posting);
        for (const costing::LotTake& take : takes.value()) {
            for (const costing::LotTake& part : parts_of(database, take))
                writer.move({0, 0, "write_off", part.lot, take.lot, store::written_off,
                             part.quantity, part.value});
            left.value += take.value;
        }
        require_its_day(database, left.posting);
        return left;
    });
}

Left write_off_offcut(Context& context, const std::string& label) {
    require_reason(context);
    return writing(context, [&] {
        const store::OffcutOnHand there = offcut_free(context.database, label);
        Left left;
        left.posting = post(context, "write off", context.today);
        left.what = "offcut " + there.offcut.code;
        store::MovementWriter writer(context.database, left.posting);
        for (const store::Balance& held : store::balances_of(context.database, there.offcut.id)) {
            writer.move({0, 0, "write_off", held.lot, there.offcut.id, store::written_off,
                         held.quantity, held.value});
            left.value += held.value;
        }
        require_its_day(context.database, left.posting);
        return left;
    });
}

store::Offcut offcut_labelled(store::Database& database, const std::string& label) {
    const auto number = base::read_short_code(label);
    if (!number)
        throw base::bad_input("offcut",
                              fmt::format("\"{}\" is not a label: its last sign does not "
                                          "fit the others",
                                          label),
                              "read the label again");
    if (auto offcut = store::find_offcut(database, base::short_code(*number))) return *offcut;
    throw base::bad_input("offcut",
                          fmt::format("no offcut has the label {}", base::short_code(*number)),
                          "see all with: barrow offcut list");
}

store::OffcutOnHand offcut_there(store::Database& database, const std::string& label) {
    const store::Offcut offcut = offcut_labelled(database, label);
    for (const store::OffcutOnHand& there : store::offcuts_on_hand(database, offcut.material_id))
        if (there.offcut.id == offcut.id) return there;
    std::string by;
    for (const store::Posting& taker :
         store::postings_taking_from(database, offcut.id, offcut.posting_id))
        by += fmt::format("{}entry {} ({}, {})", by.empty() ? "" : ", ", taker.id, taker.kind,
                          base::to_text(taker.made_on));
    throw base::refused(fmt::format("offcut {} is no longer there", offcut.code),
                        by.empty() ? std::string() : "it went with " + by);
}

store::OffcutOnHand offcut_free(store::Database& database, const std::string& label) {
    store::OffcutOnHand there = offcut_there(database, label);
    if (!store::batches_reserving(database, there.offcut.id).empty())
        throw reserved_for(database, {there.offcut.id}, "offcut " + there.offcut.code + " is");
    return there;
}

} // namespace barrow::workshop
