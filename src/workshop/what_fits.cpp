#include "workshop/offcut_box.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "costing/bill.hpp"
#include "costing/cutting_job.hpp"
#include "layout/solve.hpp"
#include "store/catalogue.hpp"
#include "store/designs.hpp"
#include "workshop/designs.hpp"
#include "workshop/material_facts.hpp"
#include "workshop/shelf.hpp"

#include <algorithm>
#include <map>

namespace barrow::workshop {
namespace {

using base::Form;

/// The cuts one journal of each design asks of each material, by material code.
struct Want {
    std::string design;
    std::string part;
    costing::CutWant cut;
};

/// Designs that cannot be worked out or billed as they stand (a material is missing) have nothing
/// to cut; the design's own commands say what is wrong with them.
std::map<std::int64_t, std::vector<Want>> wants_by_material(store::Database& database,
                                                            const base::Date& today) {
    std::vector<costing::ShelfMaterial> shelf;
    for (const store::Material& material : store::all_materials(database))
        shelf.push_back(shelf_of(database, material, today, {}));
    const design::Facts facts = facts_of(database);
    std::map<std::int64_t, std::vector<Want>> wants;
    for (const store::StoredDesign& stored : store::all_designs(database)) {
        try {
            const std::vector<costing::Run> runs = {
                {design::work_out(read_stored(database, stored), {}, facts), 1}};
            const costing::Bill bill = costing::make_bill(runs, shelf);
            for (const costing::Demand& demand : bill.demands)
                for (const costing::CutWant& cut : demand.cuts)
                    wants[demand.material->id].push_back(
                        {stored.code, costing::part_name(runs[0], cut.origin.part), cut});
        } catch (const base::Error&) {
            continue;
        }
    }
    return wants;
}

/// How many pieces of one kind the offcut gives, and the share of it they use.
std::pair<std::int64_t, base::Rational>
pieces_from(const store::Material& material, const base::StockSize& offcut, const Want& want) {
    layout::Job job;
    job.goal = layout::Goal::most_value;
    job.one_dimensional = material.form != Form::sheet;
    job.kerf = material.kerf;
    layout::Stock stock;
    stock.id = "offcut";
    stock.width = offcut.width;
    stock.height = offcut.height;
    job.stock.push_back(stock);
    layout::Piece piece = costing::layout_piece(want.cut, 0);
    piece.count.reset();
    piece.value = 1;
    job.pieces.push_back(piece);
    if (!layout::examine(job).empty()) return {0, base::Rational(0)};
    layout::Options options;
    options.effort = layout::Effort::quick;
    const layout::Outcome outcome = layout::solve(job, options);
    if (outcome.plans.empty()) return {0, base::Rational(0)};
    return {outcome.value,
            base::Rational::of(want.cut.size.measure() * outcome.value, offcut.measure())};
}

} // namespace

Fits what_fits(store::Database& database, const base::Date& today) {
    return reading(database, [&] {
        Fits fits;
        fits.settings = read_settings(database);
        const auto wants = wants_by_material(database, today);
        std::map<std::int64_t, store::Material> materials;
        for (const store::Material& material : store::all_materials(database))
            materials[material.id] = material;
        for (const store::OffcutOnHand& there : store::all_offcuts_on_hand(database)) {
            const store::Material& material = materials[there.offcut.material_id];
            const std::size_t before = fits.lines.size();
            const auto own = wants.find(material.id);
            if (own != wants.end()) {
                for (const Want& want : own->second) {
                    const auto [pieces, used] = pieces_from(material, there.offcut.size, want);
                    if (pieces == 0) continue;
                    fits.lines.push_back({there.offcut.code, material.code, material.form,
                                          there.offcut.size, want.design, want.part, pieces, used,
                                          there.value,
                                          base::days_between(there.offcut.kept_on, today)});
                }
            }
            if (fits.lines.size() == before) ++fits.nothing_fits;
        }
        std::stable_sort(fits.lines.begin(), fits.lines.end(), [](const Fit& a, const Fit& b) {
            if (a.used != b.used) return a.used > b.used;
            return a.age_days > b.age_days;
        });
        return fits;
    });
}

} // namespace barrow::workshop
