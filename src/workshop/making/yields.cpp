#include "workshop/making/yields.hpp"

#include "base/error.hpp"
#include "costing/cutting/cutting_job.hpp"
#include "costing/cutting/fillers.hpp"
#include "costing/cutting/share_out.hpp"
#include "store/making/batch_plans.hpp"
#include "store/making/designs.hpp"
#include "workshop/making/cost_in_transaction.hpp"
#include "workshop/making/designs.hpp"
#include "workshop/stock/leaving.hpp"
#include "workshop/stock/material_facts.hpp"
#include "workshop/stock/shelf.hpp"

namespace barrow::workshop {
namespace {

class Filling {
public:
    Filling(store::Database& database, const std::string& label, const HowToFill& how,
            const base::Date& today)
        : database_(database), how_(how) {
        yields_.settings = read_settings(database);
        yields_.offcut = offcut_there(database, label);
        yields_.material =
            store::material_by_id(database, yields_.offcut.offcut.material_id).value();
        yields_.age_days = base::days_between(yields_.offcut.offcut.kept_on, today);
        yields_.reserved_for = store::batches_reserving(database, yields_.offcut.offcut.id);
        add_hazards(yields_.material, yields_.hazards);
        shelf_ = {shelf_of(database, yields_.material, today, {})};
    }

    Yields run() {
        gather();
        choose();
        return std::move(yields_);
    }

private:
    void gather() {
        const design::Facts facts = facts_of(database_);
        if (!how_.design.empty()) {
            const design::Worked design =
                design::work_out(design_read(database_, how_.design, "--design").design, {}, facts);
            yields_.only = design.code;
            add(design);
            return;
        }
        for (const store::StoredDesign& stored : store::all_designs(database_)) {
            try {
                add(design::work_out(read_stored(database_, stored), {}, facts));
            } catch (const base::Error&) {
                // The design's own commands say what is wrong with it.
                yields_.left_out.push_back(stored.code);
            }
        }
    }

    void add(const design::Worked& design) {
        const std::vector<costing::Run> runs = {{design, 1}};
        for (const costing::FillerWant& filler : costing::fillers_for(
                 runs, shelf_, 0, base::minor_per_major(yields_.settings.currency))) {
            const design::WorkedPart& part =
                *costing::part_behind(runs[0], filler.want.origin.part);
            pieces_.push_back(costing::layout_piece(filler.want, pieces_.size()));
            pieces_.back().count = how_.at_most;
            pieces_.back().value = filler.worth;
            yields_.lines.push_back(
                {design.code, part.name, filler.want.size, part.worth.value_or(base::Rational(0)),
                 costing::number_from(costing::bare_job(shelf_[0]), yields_.offcut.offcut.size,
                                      pieces_.back()),
                 0});
        }
    }

    void choose() {
        yields_.choice = costing::fill_sparingly(costing::bare_job(shelf_[0]),
                                                 yields_.offcut.offcut.size, pieces_, how_.effort);
        yields_.choice.job.stock.front().id = yields_.offcut.offcut.code;
        const layout::Plan* plan = yields_.choice.plan();
        if (plan == nullptr) return;
        for (const layout::Placed& placed : plan->pieces) {
            YieldLine& line = yields_.lines[yields_.choice.which[placed.piece]];
            ++line.chosen;
            yields_.worth = yields_.worth + line.worth;
        }
        yields_.sheet = costing::cut_offcut(yields_.offcut.offcut.id, yields_.offcut.offcut.size,
                                            yields_.offcut.value, shelf_[0], *plan,
                                            yields_.settings.offcut_share);
        yields_.pays = costing::paid_by_pieces(yields_.sheet);
    }

    store::Database& database_;
    const HowToFill& how_;
    std::vector<costing::ShelfMaterial> shelf_; ///< the offcut's material
    std::vector<layout::Piece> pieces_;         ///< beside yields_.lines
    Yields yields_;
};

} // namespace

Yields yields(store::Database& database, const std::string& label, const HowToFill& how,
              const base::Date& today) {
    return reading(database, [&] { return Filling(database, label, how, today).run(); });
}

} // namespace barrow::workshop
