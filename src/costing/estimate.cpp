#include "costing/estimate.hpp"

#include "base/error.hpp"
#include "costing/share_out.hpp"

#include <algorithm>

namespace barrow::costing {
namespace {

using base::Rational;

class Estimating {
public:
    Estimating(const std::vector<Run>& runs, const std::vector<ShelfMaterial>& shelf,
               const Rates& rates, const CutOptions& options)
        : runs_(runs), rates_(rates), options_(options), bill_(make_bill(runs, shelf)) {}

    Estimate run() {
        result_.warnings = bill_.warnings;
        for (const Demand& demand : bill_.demands)
            demand.cuts.empty() ? take_plain(demand) : cut(demand);
        std::stable_sort(result_.lines.begin(), result_.lines.end(),
                         [](const Line& a, const Line& b) { return a.origin < b.origin; });
        for (std::size_t r = 0; r < runs_.size(); ++r) total_up(r);
        return std::move(result_);
    }

private:
    Line& line_for(const Origin& origin, const ShelfMaterial& material) {
        for (Line& line : result_.lines)
            if (line.origin == origin) return line;
        Line line;
        line.origin = origin;
        line.part = runs_[origin.run].design.parts[origin.part].name;
        line.material = material.code;
        line.form = material.form;
        line.bulk_is_mass = material.bulk_is_mass;
        result_.lines.push_back(line);
        return result_.lines.back();
    }

    void cut(const Demand& demand) {
        CutPlan plan = plan_cuts(demand, options_);
        const auto costs = share_among_wants(plan);
        for (std::size_t i = 0; i < plan.wants.size(); ++i) {
            const CutWant& want = plan.wants[i];
            Line& line = line_for(want.origin, *demand.material);
            line.joined_from = static_cast<std::int64_t>(want.joined_from);
            line.quantity += line.form == Form::sheet ? want.count : want.count * want.size.width;
            line.cost_new += costs[i].from_new;
            line.cost_offcuts += costs[i].from_offcuts;
            line.cost = line.cost_new + line.cost_offcuts;
            line.waste_cost += costs[i].waste;
        }
        if (plan.to_buy > 0)
            add_shortage(*demand.material, plan.to_buy, demand.material->fresh, plan.to_buy_cost);
        result_.cuts.push_back(std::move(plan));
    }

    void add_shortage(const ShelfMaterial& material, std::int64_t units, const StockSize& size,
                      std::optional<Money> cost) {
        result_.shortages.push_back({material.code, material.name, material.form,
                                     material.bulk_is_mass, units, size, cost});
    }

    void take_plain(const Demand& demand) {
        const ShelfMaterial& material = *demand.material;
        std::int64_t wanted = 0;
        for (const PlainWant& want : demand.plains) wanted += want.quantity;
        PlainTake take;
        take.material = demand.material;
        std::vector<ShelfLot> lots = material.lots;
        const std::int64_t taken = std::min(wanted, on_hand(lots));
        take.takes = take_from(lots, taken, options_.order);
        take.to_buy = wanted - taken;
        if (take.to_buy > 0) {
            const auto cost = cost_to_buy(material, take.to_buy);
            take.to_buy_cost = cost.value_or(Money());
            add_shortage(material, take.to_buy, material.fresh, cost);
        }
        const Money total = value_of(take.takes) + take.to_buy_cost;
        const auto shares = share_among_plains(total, demand.plains);
        for (std::size_t i = 0; i < demand.plains.size(); ++i) {
            Line& line = line_for(demand.plains[i].origin, material);
            line.quantity += demand.plains[i].quantity;
            line.cost_new += shares[i];
            line.cost = line.cost_new;
        }
        result_.plains.push_back(std::move(take));
    }

    void total_up(std::size_t r) {
        const Run& run = runs_[r];
        RunTotals totals;
        for (const Line& line : result_.lines)
            if (line.origin.run == r) totals.materials += line.cost;
        totals.minutes = run.design.minutes_per_journal * Rational(run.journals)
            + run.design.minutes_per_batch;
        totals.labour = base::times(rates_.per_hour, totals.minutes / Rational(60));
        const Money base_of_overheads = rates_.overheads_on == Rates::Base::labour
            ? totals.labour
            : totals.materials + totals.labour;
        totals.overheads = base::times(base_of_overheads, rates_.overheads);
        totals.total = totals.materials + totals.labour + totals.overheads;
        totals.unit_cost = base::times(totals.total, Rational::of(1, run.journals));
        result_.runs.push_back(totals);
    }

    const std::vector<Run>& runs_;
    const Rates& rates_;
    const CutOptions& options_;
    Bill bill_;
    Estimate result_;
};

} // namespace

Estimate estimate(const std::vector<Run>& runs, const std::vector<ShelfMaterial>& shelf,
                  const Rates& rates, const CutOptions& options) {
    for (const Run& run : runs)
        if (run.journals <= 0) throw base::refused("a run of no journals", "make one or more");
    return Estimating(runs, shelf, rates, options).run();
}

} // namespace barrow::costing
