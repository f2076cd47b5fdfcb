#include "workshop/making/what_fits.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "costing/arrange/arrange.hpp"
#include "costing/bill/bill.hpp"
#include "costing/cutting/cutting_job.hpp"
#include "costing/cutting/filling.hpp"
#include "store/making/designs.hpp"
#include "store/stock/catalogue.hpp"
#include "store/stock/offcuts.hpp"
#include "workshop/making/designs.hpp"
#include "workshop/stock/material_facts.hpp"
#include "workshop/stock/shelf.hpp"

#include <algorithm>
#include <map>

namespace barrow::workshop {
namespace {

/// What one journal of a design asks to be cut.
struct Want {
    std::string design;
    std::string part;
    costing::CutWant cut;
};

/// What the designs ask of one material, and how that is cut.
struct Wants {
    layout::Job like; ///< costing::bare_job
    std::vector<Want> wants;
};

/// Designs that cannot be worked out or billed as they stand (a material is missing) have nothing
/// to cut; the design's own commands say what is wrong with them.
std::map<std::int64_t, Wants> wants_by_material(store::Database& database,
                                                const base::Date& today) {
    std::vector<costing::ShelfMaterial> shelf;
    for (const store::Material& material : store::all_materials(database))
        shelf.push_back(shelf_of(database, material, today, {}));
    const design::Facts facts = facts_of(database);
    std::map<std::int64_t, Wants> wants;
    for (const costing::ShelfMaterial& material : shelf)
        wants[material.id].like = costing::bare_job(material);
    for (const store::StoredDesign& stored : store::all_designs(database)) {
        try {
            const std::vector<costing::Run> runs = {
                {design::work_out(read_stored(database, stored), {}, facts), 1}};
            const costing::Bill bill = costing::make_bill(
                runs, shelf, costing::arrange(runs, shelf, layout::Effort::quick));
            for (const costing::Demand& demand : bill.demands)
                for (const costing::CutWant& cut : demand.cuts)
                    wants[demand.material->id].wants.push_back(
                        {stored.code, costing::part_name(runs[0], cut.origin.part), cut});
        } catch (const base::Error&) {
            continue;
        }
    }
    return wants;
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
            const Wants& own = wants.at(material.id);
            for (const Want& want : own.wants) {
                layout::Piece piece = costing::layout_piece(want.cut, 0);
                piece.count.reset();
                const base::StockSize& size = there.offcut.size;
                const std::int64_t pieces = costing::number_from(own.like, size, piece);
                if (pieces == 0) continue;
                const auto used =
                    base::Rational::of(want.cut.size.measure() * pieces, size.measure());
                fits.lines.push_back({there.offcut.code, material.code, material.form, size,
                                      want.design, want.part, pieces, used, there.value,
                                      base::days_between(there.offcut.kept_on, today)});
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
