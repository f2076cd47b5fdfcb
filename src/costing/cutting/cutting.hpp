#pragma once

#include "costing/bill/bill.hpp"
#include "costing/shelf/lots.hpp"
#include "layout/solve.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace barrow::costing {

/// Where a sheet, roll or strip comes from.
struct Source {
    enum class Kind { lot, offcut, to_buy } kind = Kind::lot;
    std::int64_t id = 0; ///< of the lot or offcut; 0 when it must be bought first
    friend auto operator<=>(const Source&, const Source&) = default;
};

/// A remnant that becomes an offcut.
struct Kept {
    layout::Rectangle place; ///< on its sheet
    Money value;
    /// Of a length or wire offcut cut further: what is left of it keeps its code.
    bool keeps_code = false;
};

/// One sheet (roll, strip) that is cut.
struct SheetUse {
    std::size_t plan = 0; ///< index into CutPlan::outcome.plans
    Source source;
    StockSize size;
    Money cost; ///< of the whole sheet
    std::vector<Kept> kept;
    std::int64_t pieces_measure = 0; ///< pieces + kept + waste = size.measure(), exactly
    std::int64_t kept_measure = 0;
    std::int64_t waste_measure = 0;
};

/// How one material is cut for the runs: the layout, and every sheet with its source and cost.
struct CutPlan {
    const ShelfMaterial* material = nullptr;
    layout::Job job;
    layout::Outcome outcome;
    std::vector<CutWant> wants; ///< beside job.pieces: what each kind of piece is for
    std::vector<SheetUse> sheets;
    std::vector<LotTake> takes;       ///< of whole units from lots
    std::int64_t to_buy = 0;          ///< units that are not on the shelf
    std::optional<Money> to_buy_cost; ///< what they cost, when a price is known
    bool from_box = false;            ///< only fillers, cut from offcuts: see fill_from_box
};

/// What so many units (bulk: thousandths) cost to buy now, rounded once; nothing without a price.
std::optional<Money> cost_to_buy(const ShelfMaterial& material, std::int64_t quantity);

struct FillerWant;

struct CutOptions {
    layout::Options layout;
    CostOrder order = CostOrder::first_in_first_out;
    /// The part of its fair share by area that a kept offcut carries (1: all of it, 0: nothing).
    base::Rational offcut_share = base::Rational(1);
    /// Minor units in a unit of the currency, in which designs say what fillers are worth.
    std::int64_t minor_per_major = 100;
    /// Whether fillers that find no room in what the sheets leave over are cut from offcuts.
    bool fillers_from_box = false;
};

/// Lays out all cuts of one material: offcuts first as far as they save fresh sheets, then the
/// lots on the shelf, then sheets to buy. What counts in the layout:
///  - a fresh sheet: the cost of the oldest one of its size on the shelf, else what it costs to
///    buy;
///  - a sheet to buy: as one of its size on the shelf, which goes first; where there is none of
///    that size, a hundredth more than the dearest sheet on the shelf; where there are several
///    sizes, more than all of them, so that none is bought that the shelf could give;
///  - an offcut: a tenth of what its area would cost fresh, so that it goes before a fresh sheet,
///    but a large one is not taken where a small one will do.
/// With `fillers`, what is left of the sheets is filled with them (see fill_in).
/// The plan is proved by layout::check; a plan that fails the proof throws base::broken.
/// Throws base::Error (Kind::refused) for a piece that no unit as bought can hold.
CutPlan plan_cuts(const Demand& demand, const CutOptions& options,
                  std::vector<FillerWant>* fillers = nullptr);

} // namespace barrow::costing
