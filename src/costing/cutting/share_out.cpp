#include "costing/cutting/share_out.hpp"

#include "base/error.hpp"
#include "costing/shelf/sheet_cost.hpp"

namespace barrow::costing {
namespace {

/// Finer fraction of a minor unit in which sheet-by-sheet shares are summed.
constexpr Wide fine = 1'000'000;

/// Running sums for the sheets of one kind (new, or offcuts).
struct Pot {
    explicit Pot(std::size_t wants) : weights(wants), pure(wants) {}
    Money total;               ///< what the pieces pay in all
    std::vector<Wide> weights; ///< each want's share in millionths
    std::vector<Wide> pure;    ///< the same without waste
};

void add_sheet(const CutPlan& plan, const SheetUse& sheet, Pot& pot) {
    const Money pays = paid_by_pieces(sheet);
    pot.total += pays;
    const Wide whole = sheet.size.measure();
    for (const layout::Placed& placed : plan.outcome.plans[sheet.plan].pieces) {
        const Wide area = Wide{placed.place.width} * placed.place.height;
        // A price of 1e15 minor units times an area of 9e18 is 9e33; a millionth finer would
        // not fit, so the area is brought to millionths of the sheet first.
        const Wide of_pieces = area * fine / sheet.pieces_measure;
        const Wide of_sheet = area * fine / whole;
        pot.weights[placed.piece] += of_pieces * pays.minor();
        pot.pure[placed.piece] += of_sheet * sheet.cost.minor();
    }
}

std::vector<Money> settle(const Pot& pot) {
    Wide sum = 0;
    for (const Wide weight : pot.weights) sum += weight;
    if (sum == 0 && !pot.total.is_zero())
        throw base::broken("sheets were paid for that hold no pieces");
    return base::split(pot.total, pot.weights);
}

Money rounded(Wide fine_minor) {
    return Money::of_minor(static_cast<std::int64_t>(base::divide_half_away(fine_minor, fine)));
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
    for (const SheetUse& sheet : plan.sheets)
        add_sheet(plan, sheet, sheet.source.kind == Source::Kind::offcut ? offcuts : fresh);
    const auto from_new = settle(fresh);
    const auto from_offcuts = settle(offcuts);
    std::vector<WantCost> costs(plan.wants.size());
    for (std::size_t i = 0; i < costs.size(); ++i) {
        costs[i].from_new = from_new[i];
        costs[i].from_offcuts = from_offcuts[i];
        const Money waste =
            from_new[i] + from_offcuts[i] - rounded(fresh.pure[i] + offcuts.pure[i]);
        // Rounding the two sums apart can leave a minor unit below zero where there is no waste.
        costs[i].waste = std::max(waste, Money());
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
