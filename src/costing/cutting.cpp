#include "costing/cutting.hpp"

#include "base/error.hpp"
#include "costing/sheet_cost.hpp"
#include "layout/checker.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace barrow::costing {
namespace {

using design::Turn;
using layout::Cost;

/// Minor units of money are multiplied by this for the layout, to leave room for the hair's
/// breadth by which a sheet to buy costs more and a small offcut less.
constexpr Cost cost_scale = 1'000;
/// Offcuts count in the layout as one part in this of what their area would cost fresh.
constexpr Cost offcut_discount = 10;

layout::Turn layout_turn(Turn turn) {
    switch (turn) {
    case Turn::none: return layout::Turn::none;
    case Turn::half: return layout::Turn::half;
    case Turn::quarter: return layout::Turn::quarter;
    }
    throw base::broken("a turn of no kind");
}

/// The lots of one size, which the layout sees as one kind of sheet.
struct SizeGroup {
    StockSize size;
    std::vector<std::size_t> lots; ///< indices into ShelfMaterial::lots, oldest first
    std::int64_t units = 0;
};

class Cutter {
public:
    Cutter(const Demand& demand, const CutOptions& options)
        : material_(*demand.material), options_(options) {
        plan_.material = demand.material;
        plan_.wants = demand.cuts;
    }

    CutPlan run() {
        add_pieces();
        add_offcuts();
        add_lots();
        add_to_buy();
        solve();
        fetch_sheets();
        for (SheetUse& sheet : plan_.sheets) share_out(sheet);
        return std::move(plan_);
    }

private:
    void add_pieces() {
        plan_.job.one_dimensional = material_.form != Form::sheet;
        plan_.job.kerf = material_.kerf.units();
        plan_.job.useful = {material_.least_useful.width, material_.least_useful.height};
        for (std::size_t i = 0; i < plan_.wants.size(); ++i) {
            const CutWant& want = plan_.wants[i];
            layout::Piece piece;
            piece.id = fmt::format("p{}", i);
            piece.width = want.crosswise ? want.size.height : want.size.width;
            piece.height = want.crosswise ? want.size.width : want.size.height;
            piece.count = want.count;
            piece.turn = layout_turn(want.turn);
            plan_.job.pieces.push_back(piece);
        }
    }

    layout::Margin margin() const {
        const Trim& trim = material_.trim;
        return {trim.left.units(), trim.right.units(), trim.top.units(), trim.bottom.units()};
    }

    /// What a fresh unit counts in the layout. Free samples and unknown prices still count as
    /// one minor unit: a plan that wastes free sheets is no better for it.
    Cost fresh_weight() const {
        Cost minor = 1;
        if (material_.unit_price) minor = std::max(minor, material_.unit_price->ceiling());
        for (const ShelfLot& lot : material_.lots) {
            if (lot.quantity == 0) continue;
            minor = std::max<Cost>(1, unit_value(lot));
            break;
        }
        return minor * cost_scale;
    }

    static std::int64_t unit_value(const ShelfLot& lot) {
        return static_cast<std::int64_t>(base::divide_half_away(
            Wide{lot.value.minor()} * lot.size.measure(), lot.quantity));
    }

    void add_stock(layout::Stock stock, const StockSize& size) {
        stock.id = fmt::format("s{}", plan_.job.stock.size());
        stock.width = size.width;
        stock.height = size.height;
        plan_.job.stock.push_back(std::move(stock));
    }

    void add_offcuts() {
        const Cost fresh = fresh_weight();
        for (std::size_t i = 0; i < material_.offcuts.size(); ++i) {
            const ShelfOffcut& offcut = material_.offcuts[i];
            const Wide weight =
                Wide{fresh} * offcut.size.measure() / material_.fresh.measure() / offcut_discount;
            layout::Stock stock;
            stock.cost = std::max<Cost>(1, static_cast<Cost>(weight));
            stock.count = 1;
            stock.offcut = true;
            stock.age = offcut.age_days;
            sources_.push_back({Source::Kind::offcut, i});
            add_stock(std::move(stock), offcut.size);
        }
    }

    void add_lots() {
        for (std::size_t i = 0; i < material_.lots.size(); ++i) {
            const ShelfLot& lot = material_.lots[i];
            if (lot.quantity == 0) continue;
            auto group = std::find_if(groups_.begin(), groups_.end(),
                                      [&](const SizeGroup& g) { return g.size == lot.size; });
            if (group == groups_.end()) group = groups_.insert(groups_.end(), {lot.size, {}, 0});
            group->lots.push_back(i);
            group->units += static_cast<std::int64_t>(lot.quantity / lot.size.measure());
        }
        for (std::size_t g = 0; g < groups_.size(); ++g) {
            layout::Stock stock;
            stock.cost = std::max<Cost>(1, unit_value(material_.lots[groups_[g].lots.front()]))
                * cost_scale;
            stock.count = groups_[g].units;
            stock.margin = margin();
            sources_.push_back({Source::Kind::lot, g});
            add_stock(std::move(stock), groups_[g].size);
        }
    }

    void add_to_buy() {
        Cost weight = fresh_weight();
        if (material_.unit_price)
            weight = std::max<Cost>(1, material_.unit_price->ceiling()) * cost_scale;
        // Never cheaper than the same size on the shelf, or the shelf would not be used up first.
        for (const layout::Stock& stock : plan_.job.stock)
            if (!stock.offcut) weight = std::max(weight, stock.cost);
        layout::Stock stock;
        stock.cost = weight + 1;
        stock.margin = margin();
        sources_.push_back({Source::Kind::to_buy, 0});
        add_stock(std::move(stock), material_.fresh);
    }

    void solve() {
        const auto problems = layout::examine(plan_.job);
        if (!problems.empty())
            throw base::broken(fmt::format("the layout of {} was asked for wrongly: {}",
                                           material_.code, problems.front().what));
        plan_.outcome = layout::solve(plan_.job, options_.layout);
        if (plan_.outcome.status == layout::Status::infeasible) throw cannot_lay_out();
        const auto faults = layout::check(plan_.job, plan_.outcome);
        if (!faults.empty())
            throw base::broken(
                fmt::format("the cut plan of {} failed its proof: {}", material_.code, faults[0]));
    }

    base::Error cannot_lay_out() const {
        const std::size_t piece = plan_.outcome.unplaced.empty() ? 0
                                                                 : plan_.outcome.unplaced[0].piece;
        const StockSize& size = plan_.wants[piece].size;
        const auto measure = [&](std::int64_t value) {
            return material_.form == Form::wire
                ? fmt::format("{} loops", value)
                : base::mm_text(base::Length::of_units(value)) + " mm";
        };
        return base::refused(
            material_.form == Form::sheet
                ? fmt::format("a piece of {} x {} cannot be cut from {}", measure(size.width),
                              measure(size.height), material_.code)
                : fmt::format("{} cannot be cut in one piece from {}, which comes as {}",
                              measure(size.width), material_.code, measure(material_.fresh.width)),
            "choose a material that comes larger, or change the design");
    }

    /// Gives every copy of every plan its sheet, and every sheet its cost.
    void fetch_sheets() {
        for (std::size_t p = 0; p < plan_.outcome.plans.size(); ++p) {
            const layout::Plan& plan = plan_.outcome.plans[p];
            for (std::int64_t copy = 0; copy < plan.copies; ++copy) fetch(p, plan.stock);
        }
        price_lots();
        price_to_buy();
    }

    void fetch(std::size_t plan, std::size_t stock) {
        SheetUse use;
        use.plan = plan;
        const auto& [kind, index] = sources_[stock];
        use.source.kind = kind;
        switch (kind) {
        case Source::Kind::offcut: {
            const ShelfOffcut& offcut = material_.offcuts[index];
            use.source.id = offcut.id;
            use.size = offcut.size;
            use.cost = offcut.value;
            break;
        }
        case Source::Kind::lot:
            use.size = groups_[index].size;
            wanted_[index].push_back(plan_.sheets.size());
            break;
        case Source::Kind::to_buy:
            use.size = material_.fresh;
            to_buy_.push_back(plan_.sheets.size());
            break;
        }
        plan_.sheets.push_back(std::move(use));
    }

    void price_to_buy() {
        plan_.to_buy = static_cast<std::int64_t>(to_buy_.size());
        plan_.to_buy_cost = cost_to_buy(material_, plan_.to_buy);
        const auto costs =
            base::split_evenly(plan_.to_buy_cost.value_or(Money()), to_buy_.size());
        for (std::size_t i = 0; i < to_buy_.size(); ++i) plan_.sheets[to_buy_[i]].cost = costs[i];
    }

    /// Takes the units of each size from its lots in the shop's cost order.
    void price_lots() {
        std::vector<ShelfLot> lots = material_.lots;
        for (const auto& [group, sheets] : wanted_) {
            const StockSize size = groups_[group].size;
            const auto per_unit = static_cast<std::int64_t>(size.measure());
            const auto takes = take_from(lots, per_unit * static_cast<std::int64_t>(sheets.size()),
                                         options_.order, size);
            std::vector<UnitTaken> units;
            for (const LotTake& take : takes)
                units.insert(units.end(), static_cast<std::size_t>(take.quantity / per_unit),
                             {take.lot, per_unit});
            const auto costs = unit_costs(takes, units, options_.order);
            for (std::size_t i = 0; i < sheets.size(); ++i) {
                plan_.sheets[sheets[i]].source.id = units[i].lot;
                plan_.sheets[sheets[i]].cost = costs[i];
            }
            plan_.takes.insert(plan_.takes.end(), takes.begin(), takes.end());
        }
    }

    void share_out(SheetUse& sheet) {
        const layout::Plan& plan = plan_.outcome.plans[sheet.plan];
        Wide pieces = 0;
        for (const layout::Placed& placed : plan.pieces)
            pieces += Wide{placed.place.width} * placed.place.height;
        Wide kept = 0;
        std::vector<Wide> areas;
        for (const layout::Rectangle& place : plan.offcuts) {
            areas.push_back(Wide{place.width} * place.height);
            kept += areas.back();
        }
        const auto shares = share_sheet(sheet.cost, sheet.size, areas, options_.offcut_share);
        const bool one_left = material_.form != Form::sheet && plan.offcuts.size() == 1
            && sheet.source.kind == Source::Kind::offcut;
        for (std::size_t i = 0; i < plan.offcuts.size(); ++i)
            sheet.kept.push_back({plan.offcuts[i], shares.remnants[i], one_left});
        sheet.pieces_measure = static_cast<std::int64_t>(pieces);
        sheet.kept_measure = static_cast<std::int64_t>(kept);
        sheet.waste_measure = static_cast<std::int64_t>(sheet.size.measure() - pieces - kept);
    }

    const ShelfMaterial& material_;
    const CutOptions& options_;
    CutPlan plan_;
    std::vector<std::pair<Source::Kind, std::size_t>> sources_; ///< beside job.stock
    std::vector<SizeGroup> groups_;
    std::map<std::size_t, std::vector<std::size_t>> wanted_; ///< group to the sheets it provides
    std::vector<std::size_t> to_buy_;                        ///< sheets that must be bought
};

} // namespace

std::optional<Money> cost_to_buy(const ShelfMaterial& material, std::int64_t quantity) {
    if (!material.unit_price) return std::nullopt;
    return Money::of_minor((*material.unit_price * base::Rational(quantity)).rounded());
}

CutPlan plan_cuts(const Demand& demand, const CutOptions& options) {
    return Cutter(demand, options).run();
}

} // namespace barrow::costing
