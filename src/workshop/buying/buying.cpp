#include "workshop/buying/buying.hpp"

#include "base/text.hpp"
#include "store/buying/orders.hpp"
#include "store/ledger/totals.hpp"
#include "store/making/batch_plans.hpp"
#include "store/making/batches.hpp"
#include "store/selling/fairs.hpp"
#include "store/selling/journals.hpp"
#include "store/stock/lots.hpp"
#include "workshop/buying/reorder_in_transaction.hpp"
#include "workshop/making/cost_in_transaction.hpp"
#include "workshop/making/designs.hpp"
#include "workshop/stock/catalogue.hpp"
#include "workshop/stock/level.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace barrow::workshop {
namespace {

/// What the estimate takes of a material (by code), and what it is short of.
struct Use {
    std::int64_t units = 0;    ///< whole units taken from lots
    std::int64_t measure = 0;  ///< what is used up: what is taken, bought too, less what is kept
    std::int64_t short_of = 0; ///< units still to be bought
    std::int64_t bought = 0;   ///< their measure
};

std::map<std::string, Use> usage_of(const costing::Estimate& estimate) {
    std::map<std::string, Use> usage;
    for (const costing::CutPlan& plan : estimate.cuts)
        for (const costing::SheetUse& sheet : plan.sheets) {
            Use& use = usage[plan.material->code];
            const auto size = static_cast<std::int64_t>(sheet.size.measure());
            use.measure += size - sheet.kept_measure;
            if (sheet.source.kind == costing::Source::Kind::lot) ++use.units;
            if (sheet.source.kind == costing::Source::Kind::to_buy) use.bought += size;
        }
    for (const costing::PlainTake& plain : estimate.plains)
        for (const costing::LotTake& take : plain.takes)
            usage[plain.material->code].units += take.quantity;
    for (const costing::Shortage& shortage : estimate.shortages)
        usage[shortage.material].short_of = shortage.units;
    return usage;
}

/// How many journals of each design (by its code) there are for the wanted day: in hand and free to
/// sell, which seconds and those listed for another fair to come are not; and in the making.
struct Ready {
    std::map<std::string, std::int64_t> finished, in_work;
};

Ready ready_for(store::Database& database, const base::Date& wanted_by, const base::Date& today) {
    std::set<std::int64_t> promised;
    for (const store::Fair& fair : store::all_fairs(database)) {
        if (fair.undone || fair.held_on < today || fair.held_on == wanted_by) continue;
        for (const store::FairJournal& one : fair.journals) promised.insert(one.journal.id);
    }
    Ready ready;
    for (const store::JournalOnHand& there : store::journals_on_hand(database))
        if (!there.journal.second && promised.count(there.journal.id) == 0)
            ++ready.finished[base::lowered(there.design_code)];
    for (const store::Batch& batch : store::batches_under_way(database)) {
        const auto whole = store::batch_by_id(database, batch.id).value();
        for (const store::BatchRun& run : whole.runs)
            ready.in_work[base::lowered(run.code)] += run.journals;
    }
    return ready;
}

/// Takes what is there or in the making off what is wanted.
std::vector<WantedRun> still_to_make(store::Database& database,
                                     const std::vector<WantedRun>& wanted, const base::Date& today,
                                     Reorder& result) {
    Ready ready = ready_for(database, result.wanted_by, today);
    std::vector<WantedRun> rest;
    for (const WantedRun& run : wanted) {
        const design::Design design = design_read(database, run.design, "design").design;
        std::int64_t left = run.journals;
        const auto cover = [&](std::map<std::string, std::int64_t>& there) {
            std::int64_t& own = there[base::lowered(design.code)];
            const std::int64_t covered = std::min(own, left);
            own -= covered;
            left -= covered;
            return covered;
        };
        const std::int64_t finished = cover(ready.finished);
        const std::int64_t in_work = cover(ready.in_work);
        result.runs.push_back({design.code, design.name, run.journals, finished, in_work});
        if (left == 0) continue;
        rest.push_back(run);
        rest.back().journals = left;
    }
    return rest;
}

/// What there is of a material and what of it is used up, in the units of its reorder level.
void count_stock(const store::Material& material, const store::OnHand& there, std::int64_t reserved,
                 std::int64_t planned, const Use& use, supply::Supply& supply) {
    supply.on_hand = units_there(material, there.quantity, there.units, there.offcut_quantity);
    const std::int64_t left =
        units_there(material, there.quantity + use.bought - planned - use.measure,
                    there.units - reserved - use.units, there.offcut_quantity);
    supply.used = supply.on_hand - left;
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
    const auto rest = still_to_make(database, wanted, today, result);
    std::map<std::string, Use> usage;
    if (!rest.empty()) usage = usage_of(cost_in_transaction(database, rest, today, {}).estimate);
    const auto there = store::on_hand(database);
    const auto reserved = store::units_reserved(database);
    const auto planned = planned_use(database);
    const auto of = [](const auto& all, std::int64_t id) {
        const auto found = all.find(id);
        return found == all.end() ? decltype(found->second)() : found->second;
    };
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
        const Use& use = usage[material.code];
        count_stock(material, of(there, material.id), of(reserved, material.id),
                    of(planned, material.id), use, supply);
        supply.short_of = use.short_of;
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
