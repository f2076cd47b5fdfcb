#include "costing/price/estimate.hpp"

#include "base/error.hpp"
#include "costing/arrange/arrange.hpp"
#include "costing/bill/cut_wants.hpp"
#include "costing/cutting/box_fillers.hpp"
#include "costing/cutting/fillers.hpp"
#include "costing/cutting/share_out.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace barrow::costing {
namespace {

using base::Rational;

class Estimating {
public:
    Estimating(const std::vector<Run>& runs, const std::vector<ShelfMaterial>& shelf,
               const Rates& rates, const CutOptions& options)
        : runs_(runs), shelf_(shelf), rates_(rates), options_(options),
          arrangement_(arrange(runs, shelf, layout::Effort::quick)),
          bill_(make_bill(runs, shelf, arrangement_)) {}

    Estimate run() {
        result_.warnings = bill_.warnings;
        result_.rows = arrangement_.rows;
        // Sheets first: only they tell how much glue and tape joins and fillers take on top.
        for (Demand& demand : bill_.demands)
            if (demand.material->form == Form::sheet) cut(demand);
        turn_to_box(true);
        for (std::size_t r = 0; r < runs_.size(); ++r) add_extra_glue(r);
        for (Demand& demand : bill_.demands) {
            if (demand.material->form == Form::sheet) continue;
            demand.cuts.empty() ? take_plain(demand) : cut(demand);
        }
        turn_to_box(false);
        note_missing_fillers();
        std::stable_sort(result_.lines.begin(), result_.lines.end(),
                         [](const Line& a, const Line& b) { return a.origin < b.origin; });
        for (std::size_t r = 0; r < runs_.size(); ++r) total_up(r);
        return std::move(result_);
    }

private:
    Line& line_for(const Origin& origin, const ShelfMaterial& material) {
        for (Line& line : result_.lines)
            if (line.origin == origin && line.material == material.code) return line;
        Line line;
        line.origin = origin;
        line.part = part_name(runs_[origin.run], origin.part);
        line.material = material.code;
        line.form = material.form;
        line.bulk_is_mass = material.bulk_is_mass;
        result_.lines.push_back(line);
        return result_.lines.back();
    }

    /// Fillers that may be cut from the material, with the numbers still wanted.
    std::vector<FillerWant> fillers_of(const ShelfMaterial& material) const {
        const auto index = static_cast<std::size_t>(&material - shelf_.data());
        auto fillers = fillers_for(runs_, shelf_, index, options_.minor_per_major);
        for (FillerWant& filler : fillers) {
            const auto cut = fillers_cut_.find(filler.want.origin);
            if (cut != fillers_cut_.end()) filler.want.count -= cut->second;
        }
        return fillers;
    }

    void cut(Demand& demand) {
        demand.spent = spent_[demand.material];
        std::vector<FillerWant> fillers = fillers_of(*demand.material);
        CutPlan plan = plan_cuts(demand, options_, &fillers);
        for (const CutWant& want : plan.wants)
            if (want.joint == 0 && want.joined_from > 1)
                joins_[want.origin] += want.count * static_cast<std::int64_t>(want.joined_from - 1);
        if (plan.to_buy > 0)
            add_shortage(*demand.material, plan.to_buy, demand.material->fresh, plan.to_buy_cost);
        keep(std::move(plan), demand.cuts.size());
    }

    /// Puts a plan's pieces into their lines; its wants from `first_filler` on are fillers.
    void keep(CutPlan plan, std::size_t first_filler) {
        const auto costs = share_among_wants(plan);
        for (std::size_t i = 0; i < plan.wants.size(); ++i) {
            const CutWant& want = plan.wants[i];
            if (i >= first_filler) fillers_cut_[want.origin] += want.count;
            Line& line = line_for(want.origin, *plan.material);
            line.joined_from =
                std::max(line.joined_from, static_cast<std::int64_t>(want.joined_from));
            const std::int64_t quantity =
                line.form == Form::sheet ? want.count : want.count * want.size.width;
            line.quantity += quantity;
            if (plan.from_box) line.from_box += quantity;
            line.cost_new += costs[i].from_new;
            line.cost_offcuts += costs[i].from_offcuts;
            line.cost = line.cost_new + line.cost_offcuts;
            line.waste_cost += costs[i].waste;
        }
        for (const SheetUse& sheet : plan.sheets)
            if (sheet.source.kind == Source::Kind::offcut)
                spent_[plan.material].push_back(sheet.source.id);
        result_.cuts.push_back(std::move(plan));
    }

    /// Fillers still wanted are cut from offcuts, when that is asked for: of sheets, or of what is
    /// cut in lengths. After all demands, so that no part lacks an offcut for it.
    void turn_to_box(bool of_sheets) {
        if (!options_.fillers_from_box) return;
        std::vector<FillersWanted> wanted;
        for (const ShelfMaterial& material : shelf_) {
            if ((material.form == Form::sheet) != of_sheets || material.offcuts.empty()) continue;
            auto fillers = fillers_of(material);
            if (fillers.empty()) continue;
            wanted.push_back({&material, std::move(fillers), spent_[&material]});
        }
        for (CutPlan& plan : fill_from_box(wanted, options_)) keep(std::move(plan), 0);
    }

    /// Who asked for fillers from the box is told when that was not enough.
    void note_missing_fillers() {
        if (!options_.fillers_from_box) return;
        for (std::size_t r = 0; r < runs_.size(); ++r) {
            const design::Worked& design = runs_[r].design;
            for (std::size_t f = 0; f < design.fillers.size(); ++f) {
                const Origin origin{r, design.parts.size() + f};
                const std::int64_t wanted = design.fillers[f].number * runs_[r].journals;
                const std::int64_t cut = fillers_cut_[origin];
                if (cut < wanted)
                    result_.fillers_missing.push_back(
                        fmt::format("{} of {}: {} of {} wanted are cut; nothing else in the box "
                                    "gives one for less "
                                    "than it is worth",
                                    design.fillers[f].name, design.code, cut, wanted));
            }
        }
    }

    /// Glue and tape for the joins and fillers that there turned out to be.
    void add_extra_glue(std::size_t r) {
        const design::Worked& design = runs_[r].design;
        for (std::size_t g = 0; g < design.extra_glue.size(); ++g) {
            const design::ExtraGlue& glue = design.extra_glue[g];
            const bool for_join = glue.what == design::ExtraGlue::For::join;
            const auto& numbers = for_join ? joins_ : fillers_cut_;
            const auto number =
                numbers.find({r, for_join ? glue.part : design.parts.size() + glue.part});
            if (number == numbers.end() || number->second == 0) continue;
            const Origin origin{r, design.parts.size() + design.fillers.size() + g};
            const std::string where = title_of(runs_[r], origin.part);
            const ShelfMaterial& material = shelf_[material_index(shelf_, glue.material, where)];
            Demand& demand = demand_for(bill_, material, false);
            if (glue.take == design::Take::length) {
                CutWant want;
                want.origin = origin;
                want.size = {glue.length.units(), 1};
                want.count = number->second;
                demand.cuts.push_back(want);
                continue;
            }
            const base::Rational thousandths =
                glue.amount * base::Rational(base::bulk_per_unit) * base::Rational(number->second);
            demand.plains.push_back({origin, thousandths.ceiling()});
        }
    }

    void add_shortage(const ShelfMaterial& material, std::int64_t units, const StockSize& size,
                      std::optional<Money> cost) {
        result_.shortages.push_back({material.code, material.name, material.form,
                                     material.bulk_is_mass, units, size, cost, material.freight});
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
        totals.minutes =
            run.design.minutes_per_journal * Rational(run.journals) + run.design.minutes_per_batch;
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
    const std::vector<ShelfMaterial>& shelf_;
    const Rates& rates_;
    const CutOptions& options_;
    Arrangement arrangement_;
    Bill bill_;
    /// Offcuts that an earlier demand of the same material took.
    std::map<const ShelfMaterial*, std::vector<std::int64_t>> spent_;
    std::map<Origin, std::int64_t> fillers_cut_;
    std::map<Origin, std::int64_t> joins_;
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
