#include "workshop/stock/stockroom.hpp"

#include "base/error.hpp"
#include "store/buying/orders.hpp"
#include "store/checks/checks.hpp"
#include "store/file/settings.hpp"
#include "store/ledger/decisions.hpp"
#include "store/ledger/totals.hpp"
#include "store/making/batch_plans.hpp"
#include "store/stock/lots.hpp"
#include "workshop/shared/asking.hpp"
#include "workshop/stock/level.hpp"
#include "workshop/stock/levelling.hpp"

#include <utility>

namespace barrow::workshop {

using base::Money;

Stock stock(store::Database& database) {
    return reading(database, [&] {
        Stock stock;
        stock.settings = read_settings(database);
        const auto there = store::on_hand(database);
        const auto reserved = store::units_reserved(database);
        const auto on_order = store::on_order(database);
        const auto planned = planned_use(database);
        stock.lines.reserve(store::count_materials(database));
        store::each_material(database, [&](store::Material&& material) {
            StockLine& line = stock.lines.emplace_back();
            const auto found = there.find(material.id);
            const store::OnHand on_hand = found == there.end() ? store::OnHand() : found->second;
            line.quantity = on_hand.quantity;
            line.units = on_hand.units;
            const auto held = reserved.find(material.id);
            line.reserved = held == reserved.end() ? 0 : held->second;
            if (const auto waiting = on_order.find(material.id); waiting != on_order.end())
                for (const store::OnOrder& one : waiting->second) line.on_order += one.units;
            line.offcuts = on_hand.offcuts;
            line.offcut_quantity = on_hand.offcut_quantity;
            line.shelf_value = on_hand.shelf_value;
            line.offcut_value = on_hand.offcut_value;
            // Against the level stands what no planned batch will use up.
            const bool along =
                material.form == base::Form::length || material.form == base::Form::wire;
            const auto use = along ? planned.find(material.id) : planned.end();
            const std::int64_t used = use == planned.end() ? 0 : use->second;
            line.low = units_there(material, line.quantity - used, line.units - line.reserved,
                                   line.offcut_quantity)
                       < material.reorder_level;
            stock.value += line.shelf_value + line.offcut_value;
            line.material = std::move(material);
        });
        return stock;
    });
}

OffcutBox offcuts(store::Database& database, const base::Date& today) {
    return reading(database, [&] {
        OffcutBox box;
        box.settings = read_settings(database);
        std::map<std::int64_t, store::Material> materials;
        for (const store::Material& material : store::all_materials(database))
            materials[material.id] = material;
        for (const store::OffcutOnHand& there : store::all_offcuts_on_hand(database)) {
            const store::Material& material = materials[there.offcut.material_id];
            box.lines.push_back({there, material.code, material.name, material.form,
                                 base::days_between(there.offcut.kept_on, today)});
            box.value += there.value;
        }
        return box;
    });
}

ShopValue shop_value(store::Database& database) {
    return reading(database, [&] {
        ShopValue value;
        value.settings = read_settings(database);
        const auto held = store::value_by_kind(database);
        const auto of = [&](const std::string& kind) {
            const auto found = held.find(kind);
            return found == held.end() ? Money() : found->second;
        };
        value.received = store::value_received(database);
        value.on_shelf = of("shelf");
        value.in_offcuts = of("offcut");
        value.in_work = of("batch");
        value.in_journals = of("journal");
        value.sold = of("sold");
        value.written_off = of("written_off");
        value.difference = value.received - value.on_shelf - value.in_offcuts - value.in_work
                           - value.in_journals - value.sold - value.written_off;
        return value;
    });
}

Journals journals(store::Database& database) {
    return reading(database, [&] {
        Journals all{read_settings(database), store::journals_on_hand(database), {}};
        AskingPrices asking(database, all.settings);
        for (const store::JournalOnHand& line : all.lines)
            all.asked.push_back(asking.of(line.journal));
        return all;
    });
}

std::vector<LogLine> log(store::Database& database, std::int64_t most) {
    return reading(database, [&] {
        std::vector<LogLine> lines;
        for (const store::Posting& posting : store::latest_postings(database, most)) {
            LogLine line;
            line.posting = posting;
            if (const auto reversal = store::reversal_of(database, posting.id))
                line.reversed_by = std::to_string(reversal->id);
            line.movements =
                static_cast<std::int64_t>(store::movements_of(database, posting.id).size());
            lines.push_back(line);
        }
        return lines;
    });
}

std::vector<std::string> check(store::Database& database) {
    return reading(database, [&] { return store::all_faults(database); });
}

Settings change_setting(Context& context, const std::string& name, const std::string& value) {
    return writing(context, [&] {
        Settings settings = read_settings(context.database);
        const base::Currency before = settings.currency;
        const CostOrder order = settings.cost_order;
        apply_setting(settings, name, value);
        if (settings.currency != before && !store::latest_postings(context.database, 1).empty())
            throw base::refused("the currency of a shop with entries in its book cannot change",
                                "make a new shop for another currency");
        if (name == "cost-order") {
            const std::int64_t posting = post(context, "cost order", context.today);
            store::add_cost_order(context.database, posting,
                                  std::string(name_of(settings.cost_order)));
            if (order == CostOrder::moving_average && settings.cost_order != order) {
                store::MovementWriter writer(context.database, posting);
                level_all(context.database, writer);
            }
            return settings;
        }
        for (const SettingLine& line : describe(settings))
            if (line.name == name) store::put_setting(context.database, line.name, line.value);
        return settings;
    });
}

} // namespace barrow::workshop
