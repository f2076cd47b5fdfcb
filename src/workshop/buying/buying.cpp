#include "workshop/buying/buying.hpp"

#include "base/text.hpp"
#include "store/buying/orders.hpp"
#include "store/ledger/totals.hpp"
#include "store/selling/journals.hpp"
#include "workshop/buying/reorder_in_transaction.hpp"
#include "workshop/making/cost_in_transaction.hpp"
#include "workshop/making/designs.hpp"
#include "workshop/stock/catalogue.hpp"

#include <algorithm>
#include <map>

namespace barrow::workshop {
namespace {

/// Units of each material (by code) the estimate takes from shelves, and what it is short of.
struct Use {
    std::int64_t used = 0;
    std::int64_t short_of = 0;
};

std::map<std::string, Use> usage_of(const costing::Estimate& estimate) {
    std::map<std::string, Use> usage;
    for (const costing::CutPlan& plan : estimate.cuts)
        for (const costing::SheetUse& sheet : plan.sheets)
            if (sheet.source.kind == costing::Source::Kind::lot) ++usage[plan.material->code].used;
    for (const costing::PlainTake& plain : estimate.plains)
        for (const costing::LotTake& take : plain.takes)
            usage[plain.material->code].used += take.quantity;
    for (const costing::Shortage& shortage : estimate.shortages)
        usage[shortage.material].short_of = shortage.units;
    return usage;
}

/// Takes finished journals off what is wanted.
std::vector<WantedRun> still_to_make(store::Database& database,
                                     const std::vector<WantedRun>& wanted, Reorder& result) {
    std::map<std::string, std::int64_t> finished;
    for (const store::JournalOnHand& journal : store::journals_on_hand(database))
        ++finished[journal.design_code];
    std::vector<WantedRun> rest;
    for (const WantedRun& run : wanted) {
        const store::StoredDesign design = design_called(database, run.design, "design");
        std::int64_t& there = finished[design.code];
        const std::int64_t covered = std::min(there, run.journals);
        there -= covered;
        result.runs.push_back({design.code, design.name, run.journals, covered});
        if (run.journals == covered) continue;
        rest.push_back(run);
        rest.back().journals = run.journals - covered;
    }
    return rest;
}

/// What of a material is on order counts where it is expected by the wanted day. What is not, and
/// is needed, is named; so is what should have come by now.
void count_on_order(supply::Supply& supply, const std::vector<store::OnOrder>& waiting,
                    const base::Date& wanted_by, const base::Date& today, Reorder& result) {
    for (const store::OnOrder& one : waiting)
        if (one.expected_on <= wanted_by) supply.on_order += one.units;
    const bool needed = supply::net_need(supply) > 0;
    for (const store::OnOrder& one : waiting) {
        const bool counted = one.expected_on <= wanted_by;
        if (counted ? one.expected_on < today : needed)
            result.doubts.push_back(
                {supply.material, supply.name, supply.form, supply.bulk_is_mass, one, counted});
    }
}

} // namespace

Reorder reorder_in_transaction(store::Database& database, const std::vector<WantedRun>& wanted,
                               const base::Date& wanted_by, const base::Date& today) {
    Reorder result;
    result.settings = read_settings(database);
    result.wanted_by = wanted_by;
    const auto rest = still_to_make(database, wanted, result);
    std::map<std::string, Use> usage;
    if (!rest.empty()) usage = usage_of(cost_in_transaction(database, rest, today, {}).estimate);
    const auto units = store::units_on_hand(database);
    auto waiting = store::on_order(database);
    std::map<std::int64_t, store::Supplier> suppliers;
    for (const store::Supplier& supplier : store::all_suppliers(database))
        suppliers[supplier.id] = supplier;
    std::vector<supply::Supply> supplies;
    for (const store::Material& material : store::all_materials(database)) {
        supply::Supply supply;
        supply.material = material.code;
        supply.name = material.name;
        supply.form = material.form;
        supply.bulk_is_mass = material.bulk_unit == "g";
        if (material.supplier_id) {
            const store::Supplier& supplier = suppliers[*material.supplier_id];
            supply.supplier = supplier.code;
            supply.supplier_name = supplier.name;
            supply.lead_days = supplier.lead_days;
        }
        supply.pack_units = material.pack_units;
        supply.pack_price = material.pack_price;
        const auto own = units.find(material.id);
        supply.on_hand = own == units.end() ? 0 : own->second;
        supply.used = usage[material.code].used;
        supply.short_of = usage[material.code].short_of;
        supply.reorder_level = material.reorder_level;
        count_on_order(supply, waiting[material.id], wanted_by, today, result);
        supplies.push_back(supply);
    }
    result.orders = supply::orders_for(supplies, wanted_by, today);
    return result;
}

Reorder reorder(store::Database& database, const std::vector<WantedRun>& wanted,
                const base::Date& wanted_by, const base::Date& today) {
    return reading(database,
                   [&] { return reorder_in_transaction(database, wanted, wanted_by, today); });
}

} // namespace barrow::workshop
