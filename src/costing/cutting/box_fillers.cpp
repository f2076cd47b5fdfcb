#include "costing/cutting/box_fillers.hpp"

#include "costing/cutting/cutting_job.hpp"
#include "costing/cutting/filling.hpp"
#include "costing/cutting/proof.hpp"
#include "costing/cutting/share_out.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>

namespace barrow::costing {
namespace {

/// An offcut as it would be cut, and what that brings.
struct Cutting {
    Filled filled;
    SheetUse sheet;
    std::int64_t gain = 0; ///< worth of the fillers less their cost, in parts of a minor unit
};

class BoxFilling {
public:
    BoxFilling(const std::vector<FillersWanted>& wanted, const CutOptions& options)
        : wanted_(wanted), options_(options), plans_(wanted.size()), placed_(wanted.size()) {
        for (std::size_t m = 0; m < wanted.size(); ++m) {
            plans_[m].material = wanted[m].material;
            plans_[m].from_box = true;
            plans_[m].job = bare_job(*wanted[m].material);
            placed_[m].resize(wanted[m].fillers.size());
            for (const FillerWant& filler : wanted[m].fillers)
                left_[filler.want.origin] = filler.want.count;
        }
    }

    std::vector<CutPlan> run() {
        for (const auto& [material, offcut] : box())
            if (const auto cutting = best(material, *offcut)) take(material, *offcut, *cutting);
        std::vector<CutPlan> done;
        for (std::size_t m = 0; m < plans_.size(); ++m) {
            if (plans_[m].sheets.empty()) continue;
            finish(m);
            done.push_back(std::move(plans_[m]));
        }
        return done;
    }

private:
    /// Offcuts that nothing else takes, in the order in which they are tried.
    std::vector<std::pair<std::size_t, const ShelfOffcut*>> box() const {
        std::vector<std::pair<std::size_t, const ShelfOffcut*>> offcuts;
        for (std::size_t m = 0; m < wanted_.size(); ++m) {
            const auto& spent = wanted_[m].spent;
            for (const ShelfOffcut& offcut : wanted_[m].material->offcuts)
                if (std::find(spent.begin(), spent.end(), offcut.id) == spent.end())
                    offcuts.emplace_back(m, &offcut);
        }
        std::stable_sort(offcuts.begin(), offcuts.end(), [](const auto& a, const auto& b) {
            const Wide one = a.second->size.measure();
            const Wide other = b.second->size.measure();
            return one != other ? one < other : a.second->age_days > b.second->age_days;
        });
        return offcuts;
    }

    /// What the place of a filler carries of its offcut, as far as the shop lets offcuts carry.
    std::int64_t carried(const FillerWant& filler, const ShelfOffcut& offcut) const {
        const Wide whole = base::divide_up(Wide{offcut.value.minor()} * worth_per_minor
                                               * filler.want.size.measure(),
                                           offcut.size.measure());
        return static_cast<std::int64_t>(base::divide_up(whole * options_.offcut_share.number(),
                                                         options_.offcut_share.divisor()));
    }

    std::optional<Cutting> best(std::size_t material, const ShelfOffcut& offcut) const {
        std::vector<layout::Piece> pieces;
        bool dearer = false; // whether the two ways of weighing differ
        const auto& fillers = wanted_[material].fillers;
        for (std::size_t i = 0; i < fillers.size(); ++i) {
            pieces.push_back(layout_piece(fillers[i].want, i));
            pieces.back().count = left_.at(fillers[i].want.origin);
            pieces.back().value = fillers[i].worth;
            dearer = dearer || carried(fillers[i], offcut) > 0;
        }
        std::optional<Cutting> best = cut(material, offcut, pieces);
        if (!dearer || !best) return worth_it(std::move(best));
        // What is not cut goes back into the box with its share: less may bring more.
        for (std::size_t i = 0; i < fillers.size(); ++i)
            pieces[i].value = fillers[i].worth - carried(fillers[i], offcut);
        auto spared = cut(material, offcut, pieces);
        if (spared && spared->gain >= best->gain) best = std::move(spared);
        return worth_it(std::move(best));
    }

    static std::optional<Cutting> worth_it(std::optional<Cutting> cutting) {
        if (cutting && cutting->gain <= 0) cutting.reset();
        return cutting;
    }

    /// The offcut cut for the pieces at their values; nothing when none goes into it.
    std::optional<Cutting> cut(std::size_t material, const ShelfOffcut& offcut,
                               const std::vector<layout::Piece>& pieces) const {
        Cutting cutting;
        cutting.filled =
            fill_sparingly(plans_[material].job, offcut.size, pieces, layout::Effort::quick);
        const layout::Plan* plan = cutting.filled.plan();
        if (plan == nullptr) return std::nullopt;
        cutting.sheet = cut_offcut(offcut.id, offcut.size, offcut.value,
                                   *wanted_[material].material, *plan, options_.offcut_share);
        for (const layout::Placed& placed : plan->pieces)
            cutting.gain += wanted_[material].fillers[cutting.filled.which[placed.piece]].worth;
        cutting.gain -= paid_by_pieces(cutting.sheet).minor() * worth_per_minor;
        return cutting;
    }

    void take(std::size_t material, const ShelfOffcut& offcut, const Cutting& cutting) {
        CutPlan& plan = plans_[material];
        layout::Stock stock;
        stock.id = fmt::format("s{}", plan.job.stock.size());
        stock.width = offcut.size.width;
        stock.height = offcut.size.height;
        // What counts is only that every offcut taken costs something.
        stock.cost = std::max<layout::Cost>(1, offcut.value.minor());
        stock.count = 1;
        stock.offcut = true;
        stock.age = offcut.age_days;
        layout::Plan own = *cutting.filled.plan();
        own.stock = plan.job.stock.size();
        own.copies = 1;
        for (layout::Placed& placed : own.pieces) {
            placed.piece = cutting.filled.which[placed.piece];
            ++placed_[material][placed.piece];
            --left_.at(wanted_[material].fillers[placed.piece].want.origin);
        }
        plan.outcome.cost += stock.cost;
        plan.outcome.work += cutting.filled.outcome.work;
        plan.job.stock.push_back(std::move(stock));
        plan.sheets.push_back(cutting.sheet);
        plan.sheets.back().plan = plan.outcome.plans.size();
        plan.outcome.plans.push_back(std::move(own));
    }

    /// The fillers that were cut become the pieces of the job; the others never were.
    void finish(std::size_t material) {
        CutPlan& plan = plans_[material];
        std::vector<std::size_t> index(placed_[material].size(), 0);
        for (std::size_t i = 0; i < index.size(); ++i) {
            if (placed_[material][i] == 0) continue;
            index[i] = plan.wants.size();
            plan.wants.push_back(wanted_[material].fillers[i].want);
            plan.wants.back().count = placed_[material][i];
            plan.job.pieces.push_back(layout_piece(plan.wants.back(), index[i]));
        }
        for (layout::Plan& own : plan.outcome.plans)
            for (layout::Placed& placed : own.pieces) placed.piece = index[placed.piece];
        plan.outcome.status = layout::Status::feasible;
        plan.outcome.sheets = static_cast<std::int64_t>(plan.sheets.size());
        prove(plan.job, plan.outcome, "the cutting of offcuts of " + plan.material->code);
    }

    const std::vector<FillersWanted>& wanted_;
    const CutOptions& options_;
    std::vector<CutPlan> plans_;                    ///< beside wanted_
    std::vector<std::vector<std::int64_t>> placed_; ///< beside wanted_ and its fillers
    std::map<Origin, std::int64_t> left_;           ///< still wanted
};

} // namespace

std::vector<CutPlan> fill_from_box(const std::vector<FillersWanted>& wanted,
                                   const CutOptions& options) {
    return BoxFilling(wanted, options).run();
}

} // namespace barrow::costing
