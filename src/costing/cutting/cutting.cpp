#include "costing/cutting/cutting.hpp"

#include "base/error.hpp"
#include "costing/cutting/cutting_job.hpp"
#include "costing/cutting/fillers.hpp"
#include "costing/cutting/proof.hpp"
#include "costing/cutting/share_out.hpp"
#include "costing/shelf/sheet_cost.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace barrow::costing {
namespace {

class Cutter {
public:
    Cutter(const Demand& demand, const CutOptions& options)
        : demand_(demand), material_(*demand.material), options_(options) {
        plan_.material = demand.material;
        plan_.wants = demand.cuts;
    }

    CutPlan run(std::vector<FillerWant>* fillers) {
        CuttingJob made = cutting_job(demand_, Buying::after_the_shelf);
        plan_.job = std::move(made.job);
        sources_ = std::move(made.sources);
        groups_ = std::move(made.groups);
        solve();
        if (fillers != nullptr)
            fill_in(plan_, *fillers,
                    base::Rational::of(made.fresh_weight, 1)
                        / base::Rational(static_cast<std::int64_t>(material_.fresh.measure()))
                        * options_.offcut_share);
        prove(plan_.job, plan_.outcome, "the cut plan of " + material_.code);
        fetch_sheets();
        for (SheetUse& sheet : plan_.sheets)
            share_out_sheet(sheet, material_, plan_.outcome.plans[sheet.plan],
                            options_.offcut_share);
        return std::move(plan_);
    }

private:
    void solve() {
        const auto problems = layout::examine(plan_.job);
        if (!problems.empty())
            throw base::broken(fmt::format("the layout of {} was asked for wrongly: {}",
                                           material_.code, problems.front().what));
        plan_.outcome = layout::solve(plan_.job, options_.layout);
        if (!plan_.outcome.unplaced.empty()) throw cannot_lay_out();
    }

    base::Error cannot_lay_out() const {
        if (demand_.offcuts_only)
            return base::refused(
                fmt::format("the offcuts of {} in the box are not enough", material_.code),
                "make fewer, or see what the box gives: barrow offcut fits");
        const std::size_t piece =
            plan_.outcome.unplaced.empty() ? 0 : plan_.outcome.unplaced[0].piece;
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
            if (static_cast<std::int64_t>(wanted_[index].size()) < groups_[index].units) {
                wanted_[index].push_back(plan_.sheets.size());
            } else {
                use.source.kind = Source::Kind::to_buy;
                to_buy_.push_back(plan_.sheets.size());
            }
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
        const auto costs = base::split_evenly(plan_.to_buy_cost.value_or(Money()), to_buy_.size());
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

    const Demand& demand_;
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

CutPlan plan_cuts(const Demand& demand, const CutOptions& options,
                  std::vector<FillerWant>* fillers) {
    return Cutter(demand, options).run(fillers);
}

} // namespace barrow::costing
