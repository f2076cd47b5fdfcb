#include "costing/cutting/share_out.hpp"

#include "base/error.hpp"
#include "costing/cutting/fraction_sum.hpp"
#include "costing/shelf/sheet_cost.hpp"

#include <algorithm>

namespace barrow::costing {
namespace {

/// Running sums for the sheets of one kind (new, or offcuts).
struct Pot {
    explicit Pot(std::size_t wants) : shares(wants) {}
    Money total;                     ///< what the pieces pay in all
    std::vector<FractionSum> shares; ///< the part each want pays
};

/// Whether pieces of the sheet pay for more than their own area. Of a sheet of which all is pieces
/// or kept they seem to when remnants were rounded down: by less than one minor unit for each.
bool pays_for_waste(const SheetUse& sheet) {
    if (sheet.waste_measure > 0) return true;
    const Wide whole = sheet.size.measure();
    const Wide own = Wide{sheet.cost.minor()} * sheet.pieces_measure;
    return paid_by_pieces(sheet).minor() * whole - own
           >= whole * static_cast<std::int64_t>(sheet.kept.size() + 1);
}

/// Which wants have pieces on a sheet whose waste they pay for.
std::vector<bool> which_waste(const CutPlan& plan) {
    std::vector<bool> wastes(plan.wants.size());
    for (const SheetUse& sheet : plan.sheets)
        if (pays_for_waste(sheet))
            for (const layout::Placed& placed : plan.outcome.plans[sheet.plan].pieces)
                wastes[placed.piece] = true;
    return wastes;
}

/// `pure` is what each want would pay without waste, over all sheets.
void add_sheet(const CutPlan& plan, const SheetUse& sheet, Pot& pot,
               std::vector<FractionSum>& pure) {
    const Money pays = paid_by_pieces(sheet);
    const auto& pieces = plan.outcome.plans[sheet.plan].pieces;
    if (pieces.empty() && !pays.is_zero())
        throw base::broken("a sheet was paid for that holds no pieces");
    pot.total += pays;
    const Wide whole = sheet.size.measure();
    for (const layout::Placed& placed : pieces) {
        const Wide area = Wide{placed.place.width} * placed.place.height;
        pot.shares[placed.piece].add(area * pays.minor(), sheet.pieces_measure);
        pure[placed.piece].add(area * sheet.cost.minor(), whole);
    }
}

} // namespace

void share_out_sheet(SheetUse& sheet, const ShelfMaterial& material, const layout::Plan& plan,
                     const base::Rational& offcut_share) {
    Wide pieces = 0;
    for (const layout::Placed& placed : plan.pieces)
        pieces += Wide{placed.place.width} * placed.place.height;
    Wide kept = 0;
    std::vector<Wide> areas;
    for (const layout::Rectangle& place : plan.offcuts) {
        areas.push_back(Wide{place.width} * place.height);
        kept += areas.back();
    }
    const auto shares = share_sheet(sheet.cost, sheet.size, areas, offcut_share);
    const bool one_left = material.form != Form::sheet && plan.offcuts.size() == 1
                          && sheet.source.kind == Source::Kind::offcut;
    for (std::size_t i = 0; i < plan.offcuts.size(); ++i)
        sheet.kept.push_back({plan.offcuts[i], shares.remnants[i], one_left});
    sheet.pieces_measure = static_cast<std::int64_t>(pieces);
    sheet.kept_measure = static_cast<std::int64_t>(kept);
    sheet.waste_measure = static_cast<std::int64_t>(sheet.size.measure() - pieces - kept);
}

SheetUse cut_offcut(std::int64_t id, const StockSize& size, Money value,
                    const ShelfMaterial& material, const layout::Plan& plan,
                    const base::Rational& offcut_share) {
    SheetUse sheet;
    sheet.source = {Source::Kind::offcut, id};
    sheet.size = size;
    sheet.cost = value;
    share_out_sheet(sheet, material, plan, offcut_share);
    return sheet;
}

Money paid_by_pieces(const SheetUse& sheet) {
    Money pays = sheet.cost;
    for (const Kept& kept : sheet.kept) pays -= kept.value;
    return pays;
}

std::vector<WantCost> share_among_wants(const CutPlan& plan) {
    Pot fresh(plan.wants.size());
    Pot offcuts(plan.wants.size());
    std::vector<FractionSum> pure(plan.wants.size());
    for (const SheetUse& sheet : plan.sheets)
        add_sheet(plan, sheet, sheet.source.kind == Source::Kind::offcut ? offcuts : fresh, pure);
    const auto from_new = round_to_total(fresh.total, fresh.shares);
    const auto from_offcuts = round_to_total(offcuts.total, offcuts.shares);
    const std::vector<bool> wastes = which_waste(plan);
    std::vector<WantCost> costs(plan.wants.size());
    for (std::size_t i = 0; i < costs.size(); ++i) {
        costs[i].from_new = from_new[i];
        costs[i].from_offcuts = from_offcuts[i];
        const Money without = Money::of_minor(pure[i].rounded());
        if (wastes[i]) costs[i].waste = std::max(from_new[i] + from_offcuts[i] - without, Money());
    }
    return costs;
}

std::vector<Money> share_among_plains(Money total, const std::vector<PlainWant>& wants) {
    std::vector<Wide> weights;
    weights.reserve(wants.size());
    for (const PlainWant& want : wants) weights.push_back(want.quantity);
    return base::split(total, weights);
}

} // namespace barrow::costing
