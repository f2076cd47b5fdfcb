#include "workshop/making/batch_steps.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "costing/shelf/sheet_cost.hpp"
#include "store/ledger/ledger.hpp"
#include "store/stock/catalogue.hpp"
#include "workshop/making/work_account.hpp"
#include "workshop/shared/quantity_text.hpp"
#include "workshop/stock/catalogue.hpp"
#include "workshop/stock/shelf.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

namespace barrow::workshop {
namespace {

using base::Money;
using base::StockSize;
using base::Wide;

/// A remnant as it really came out.
struct Remnant {
    StockSize size;
    bool keeps_code = false;
};

/// A sheet on the bench: of the plan, or spoiled.
struct Bench {
    std::int64_t planned_id = 0;
    std::int64_t material_id = 0;
    std::int64_t source_id = 0;
    StockSize size;
    Wide pieces = 0;
    std::vector<Remnant> remnants;
    Money cost;

    Wide kept() const {
        Wide sum = 0;
        for (const Remnant& remnant : remnants) sum += remnant.size.measure();
        return sum;
    }
    Wide waste() const { return size.measure() - pieces - kept(); }
};

class CarryingOut {
public:
    CarryingOut(Context& context, std::int64_t posting, const store::Batch& batch,
                const CutReport& report)
        : context_(context), database_(context.database), posting_(posting), batch_(batch),
          report_(report), writer_(context.database, posting),
          account_(context.database, writer_, batch.id) {
        const Settings settings = read_settings(database_);
        order_ = costing_order(settings.cost_order);
        offcut_share_ = settings.offcut_share;
    }

    Cut run() {
        cut_.posting = posting_;
        cut_.batch = batch_;
        lay_out_plan();
        change_remnants();
        add_spoiled();
        add_extra_remnants();
        take_lots();
        for (Bench& sheet : bench_) cut(sheet);
        return std::move(cut_);
    }

private:
    bool is_offcut(std::int64_t holder) const {
        return store::kind_of_holder(database_, holder) == "offcut";
    }

    const store::Material& material(std::int64_t id) {
        const auto known = materials_.find(id);
        if (known != materials_.end()) return known->second;
        return materials_[id] = store::material_by_id(database_, id).value();
    }

    void lay_out_plan() {
        for (const store::PlannedSheet& planned : store::planned_sheets(database_, batch_.id)) {
            Bench sheet{planned.id, planned.material_id, planned.source_id, planned.size, 0, {},
                        {}};
            for (const store::PlannedPiece& piece : planned.pieces)
                sheet.pieces += piece.place.area();
            for (const store::PlannedRemnant& remnant : planned.remnants)
                sheet.remnants.push_back(
                    {{remnant.place.width, remnant.place.height}, remnant.keeps_code});
            bench_.push_back(std::move(sheet));
        }
    }

    /// Puts the sizes the maker reports in the place of the planned ones. A remnant may be larger
    /// than planned only by what would have been waste on the same sheet.
    void change_remnants() {
        std::int64_t number = 0;
        std::size_t used = 0;
        for (Bench& sheet : bench_) {
            std::vector<Remnant> real;
            for (const Remnant& planned : sheet.remnants) {
                const auto change = report_.remnants.find(++number);
                if (change == report_.remnants.end()) {
                    real.push_back(planned);
                    continue;
                }
                ++used;
                if (change->second) real.push_back({*change->second, planned.keeps_code});
            }
            sheet.remnants = std::move(real);
            if (sheet.waste() < 0)
                throw base::refused(
                    fmt::format("the remnants reported for a sheet of {} are larger than what its "
                                "pieces leave of it",
                                material(sheet.material_id).code),
                    "measure again");
        }
        if (used != report_.remnants.size())
            throw base::bad_input(
                "--remnant",
                fmt::format("the plan keeps {} remnants; a number above was given", number),
                fmt::format("see: barrow batch show {}", batch_.number));
    }

    /// A remnant the plan did not foresee was part of some sheet's waste: the one with most left,
    /// which a spoiled sheet may be.
    void add_extra_remnants() {
        for (const auto& [code, size] : report_.extra) {
            const store::Material own = material_called(database_, code, "--extra");
            Bench* most = nullptr;
            for (Bench& sheet : bench_)
                if (sheet.material_id == own.id
                    && (most == nullptr || sheet.waste() > most->waste()))
                    most = &sheet;
            if (most == nullptr || most->waste() < size.measure())
                throw base::refused(
                    fmt::format("no sheet of {} in this batch has that much left over", own.code),
                    "measure again, or name the remnant whose size differs with --remnant");
            most->remnants.push_back({size, false});
        }
    }

    void add_spoiled() {
        for (const auto& [code, units] : report_.spoiled) {
            const store::Material own = material_called(database_, code, "--spoiled");
            if (!base::is_cut(own.form))
                throw base::bad_input("--spoiled", fmt::format("{} is not cut", own.code),
                                      "say with: barrow write-off");
            require_used(own);
            spoil(own, units);
        }
    }

    /// What the batch does not use it cannot pass on to its journals.
    void require_used(const store::Material& own) const {
        for (const store::BatchPart& part : store::parts_of(database_, batch_.id))
            if (part.material_id == own.id) return;
        throw base::refused(fmt::format("batch {} uses no {}", batch_.number, own.code),
                            "write it off with: barrow write-off");
    }

    /// Lots that spoiled units may have come from: the one that was named, else those the plan
    /// cuts, then the others, the oldest first.
    std::vector<costing::ShelfLot> lots_spoiled(const store::Material& own) const {
        auto lots = lots_of(database_, own.id);
        for (const auto& [code, named] : report_.spoiled_from) {
            if (base::lowered(code) != base::lowered(own.code)) continue;
            std::erase_if(lots, [id = named](const auto& lot) { return lot.id != id; });
            if (lots.empty())
                throw base::bad_input("--spoiled",
                                      fmt::format("{} has no lot {} on the shelf", own.code, named),
                                      fmt::format("see: barrow lots {}", own.code));
        }
        std::stable_partition(lots.begin(), lots.end(), [&](const costing::ShelfLot& lot) {
            return std::any_of(bench_.begin(), bench_.end(),
                               [&](const Bench& sheet) { return sheet.source_id == lot.id; });
        });
        return lots;
    }

    void spoil(const store::Material& own, std::int64_t units) {
        const auto reserved = store::reserved(database_, 0);
        std::int64_t left = units;
        for (const costing::ShelfLot& lot : lots_spoiled(own)) {
            const std::int64_t whole = free_units(lot, reserved);
            for (std::int64_t i = 0; i < std::min(whole, left); ++i)
                bench_.push_back({0, own.id, lot.id, lot.size, 0, {}, {}});
            left -= std::min(whole, left);
        }
        if (left > 0)
            throw base::refused(
                fmt::format("{}: {} short of what was spoiled", own.code,
                            units_text(own.form, own.bulk_unit == "g", left)),
                "what is reserved for other batches cannot be spoiled for this one; to name "
                "another lot: --spoiled CODE=NUMBER@LOT");
    }

    /// Takes everything that comes from lots, material by material, and gives each sheet its cost.
    void take_lots() {
        std::map<std::int64_t, std::map<std::int64_t, std::int64_t>> wanted; // material, lot
        std::map<std::int64_t, std::vector<std::size_t>> sheets;             // material
        for (std::size_t i = 0; i < bench_.size(); ++i) {
            if (is_offcut(bench_[i].source_id)) continue;
            wanted[bench_[i].material_id][bench_[i].source_id] +=
                static_cast<std::int64_t>(bench_[i].size.measure());
            sheets[bench_[i].material_id].push_back(i);
        }
        for (const store::PlannedTake& take : store::planned_takes(database_, batch_.id))
            wanted[take.material_id][take.lot_id] += take.quantity;
        for (const auto& [own, quantities] : wanted) {
            // Only the moving average asks the lots that are not taken from.
            auto lots = order_ == costing::CostOrder::moving_average
                            ? lots_of(database_, own)
                            : lots_named(database_, quantities);
            refuse_missing(own, lots, quantities);
            const auto takes = costing::take_exactly(lots, quantities, order_);
            for (const costing::LotTake& take : takes) account_.take_lot(own, take);
            price(sheets[own], takes);
        }
    }

    void refuse_missing(std::int64_t own, const std::vector<costing::ShelfLot>& lots,
                        const std::map<std::int64_t, std::int64_t>& quantities) {
        for (const auto& [id, quantity] : quantities) {
            std::int64_t there = 0;
            for (const costing::ShelfLot& lot : lots)
                if (lot.id == id) there = lot.quantity;
            if (there < quantity)
                throw base::refused(
                    fmt::format("the shelf no longer has the {} that was reserved for batch {}",
                                material(own).code, batch_.number),
                    fmt::format("abandon it and plan anew: barrow batch abandon {}",
                                batch_.number));
        }
    }

    void price(const std::vector<std::size_t>& sheets, const std::vector<costing::LotTake>& takes) {
        if (sheets.empty()) return;
        std::vector<costing::UnitTaken> units;
        units.reserve(sheets.size());
        for (const std::size_t i : sheets)
            units.push_back({bench_[i].source_id, bench_[i].size.measure()});
        const auto costs = costing::unit_costs(takes, units, order_);
        for (std::size_t i = 0; i < sheets.size(); ++i) bench_[sheets[i]].cost = costs[i];
    }

    void cut(Bench& sheet) {
        std::optional<store::Offcut> offcut;
        std::int64_t lot = sheet.source_id;
        if (is_offcut(sheet.source_id)) {
            offcut = store::offcut_by_id(database_, sheet.source_id);
            lot = offcut->lot_id;
            sheet.cost = value_of_offcut(*offcut, sheet);
        }
        std::vector<Wide> areas;
        for (const Remnant& remnant : sheet.remnants) areas.push_back(remnant.size.measure());
        const auto shares = costing::share_sheet(sheet.cost, sheet.size, areas, offcut_share_);
        if (offcut) take_offcut(*offcut, sheet, shares);
        Money kept_value;
        for (std::size_t i = 0; i < sheet.remnants.size(); ++i) {
            kept_value += shares.remnants[i];
            if (!sheet.remnants[i].keeps_code)
                keep(sheet, sheet.remnants[i], lot, shares.remnants[i]);
        }
        store::add_cut_sheet(database_,
                             {0, posting_, batch_.id, sheet.planned_id, sheet.source_id, sheet.size,
                              sheet.cost, static_cast<std::int64_t>(sheet.pieces),
                              static_cast<std::int64_t>(sheet.kept()),
                              static_cast<std::int64_t>(sheet.waste()), kept_value});
    }

    /// What the offcut is worth; refuses one that is no longer what was planned with.
    Money value_of_offcut(const store::Offcut& offcut, const Bench& sheet) const {
        Money value;
        std::int64_t quantity = 0;
        for (const store::Balance& balance : store::balances_of(database_, offcut.id)) {
            value += balance.value;
            quantity += balance.quantity;
        }
        if (quantity != sheet.size.measure())
            throw base::refused(
                fmt::format("offcut {} is no longer there as it was reserved", offcut.code),
                fmt::format("abandon it and plan anew: barrow batch abandon {}", batch_.number));
        return value;
    }

    /// What is left of a length cut further stays where it is, under its label.
    void take_offcut(const store::Offcut& offcut, const Bench& sheet,
                     const costing::SheetShares& shares) {
        Wide quantity = sheet.size.measure();
        Money value = sheet.cost;
        for (std::size_t i = 0; i < sheet.remnants.size(); ++i) {
            if (!sheet.remnants[i].keeps_code) continue;
            quantity -= sheet.remnants[i].size.measure();
            value -= shares.remnants[i];
            cut_.continued.push_back(offcut.code);
        }
        account_.take_offcut(sheet.material_id, offcut.id, offcut.lot_id,
                             static_cast<std::int64_t>(quantity), value);
    }

    void keep(const Bench& sheet, const Remnant& remnant, std::int64_t lot, Money value) {
        store::Offcut offcut;
        offcut.posting_id = posting_;
        offcut.material_id = sheet.material_id;
        offcut.lot_id = lot;
        offcut.size = remnant.size;
        offcut.kept_on = context_.today;
        offcut = store::add_offcut(database_, std::move(offcut));
        account_.keep(sheet.material_id, offcut.id, lot,
                      static_cast<std::int64_t>(offcut.size.measure()), value);
        cut_.offcuts.push_back(offcut);
        cut_.materials[sheet.material_id] = material(sheet.material_id);
    }

    Context& context_;
    store::Database& database_;
    std::int64_t posting_;
    const store::Batch& batch_;
    const CutReport& report_;
    store::MovementWriter writer_;
    WorkAccount account_;
    costing::CostOrder order_ = costing::CostOrder::first_in_first_out;
    base::Rational offcut_share_;
    std::vector<Bench> bench_;
    std::map<std::int64_t, store::Material> materials_;
    Cut cut_;
};

} // namespace

Cut carry_out(Context& context, std::int64_t posting, const store::Batch& batch,
              const CutReport& report) {
    return CarryingOut(context, posting, batch, report).run();
}

} // namespace barrow::workshop
