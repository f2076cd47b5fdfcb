#pragma once

#include "costing/bill/bill.hpp"
#include "costing/cutting/cutting.hpp"
#include "costing/price/price.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace barrow::costing {

/// What the hour and the roof cost.
struct Rates {
    Money per_hour;           ///< labour
    base::Rational overheads; ///< as a share: 15 % is 15/100
    /// What the overheads are a share of: labour alone, or materials and labour together.
    enum class Base { labour, materials_and_labour } overheads_on = Base::materials_and_labour;
};

/// One part's use of its material, for all journals of its run.
struct Line {
    Origin origin;
    std::string part;
    std::string material; ///< code
    Form form = Form::count;
    bool bulk_is_mass = false;
    std::int64_t quantity = 0; ///< pieces, length units, loops, counted things, thousandths
    Money cost;                ///< cost_new + cost_offcuts
    Money cost_new;            ///< from whole sheets and lots, including what must still be bought
    Money cost_offcuts;        ///< from offcuts
    Money waste_cost;          ///< the part of `cost` paid for waste
    std::int64_t joined_from = 1; ///< pieces a panel of this part is made of
    std::int64_t from_box = 0;    ///< fillers: so much of `quantity` is cut from offcuts for them
};

/// A counted or poured quantity taken from lots.
struct PlainTake {
    const ShelfMaterial* material = nullptr;
    std::vector<LotTake> takes;
    std::int64_t to_buy = 0; ///< in the form's measure
    Money to_buy_cost;
};

/// What is short: the runs want more than the shelf and the offcuts can give.
struct Shortage {
    std::string material; ///< code
    std::string name;
    Form form = Form::count;
    bool bulk_is_mass = false;
    std::int64_t units = 0; ///< whole units: sheets, rolls, strips, counted things; thousandths
    StockSize unit_size;
    std::optional<Money> cost; ///< to buy them, when a price is known; freight included
    base::Rational freight;    ///< freight and tax in it, as a share of what the goods cost
};

/// Labour, overheads and totals of one run.
struct RunTotals {
    Money materials;
    base::Rational minutes;
    Money labour;
    Money overheads;
    Money total;
    Money unit_cost; ///< total / journals, rounded half away from zero
};

/// Everything the calculation knows of some runs, before anything is cut.
struct Estimate {
    std::vector<Line> lines;     ///< a part that is taken from several papers has a line for each
    std::vector<PaperRow> rows;  ///< which journals have which papers, where there was a choice
    std::vector<RunTotals> runs; ///< beside the runs given
    std::vector<CutPlan> cuts;
    std::vector<PlainTake> plains;
    std::vector<Shortage> shortages;
    std::vector<std::string> warnings;
    /// Of which fillers fewer are cut than are wanted, in words; only with fillers_from_box.
    std::vector<std::string> fillers_missing;
};

/// Materials, labour and overheads of the runs together, through the layout engine. Nothing is
/// taken: the shelf is only read. What is short is priced at what it costs to buy now and listed
/// under `shortages`. Materials cost of the lines adds up exactly to the cost of the sheets, less
/// the value of the offcuts kept, plus the counted and poured takes.
/// Fillers are cut from what the sheets leave over; with options.fillers_from_box those still
/// wanted from offcuts that no part takes (fill_from_box).
/// Errors as make_bill and plan_cuts.
Estimate estimate(const std::vector<Run>& runs, const std::vector<ShelfMaterial>& shelf,
                  const Rates& rates, const CutOptions& options);

} // namespace barrow::costing
