#include "costing/bill/bill.hpp"

#include "base/error.hpp"
#include "costing/bill/cut_wants.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::costing {
namespace {

using design::Take;
using design::WorkedPart;

bool offcuts_only(const design::Worked& design, const std::string& slot) {
    return std::any_of(design.slots.begin(), design.slots.end(), [&](const auto& candidate) {
        return candidate.name == slot && candidate.offcuts_only;
    });
}

} // namespace

Demand& demand_for(Bill& bill, const ShelfMaterial& material, bool only) {
    auto at = bill.demands.end();
    for (auto demand = bill.demands.begin(); demand != bill.demands.end(); ++demand) {
        if (demand->material != &material) continue;
        if (demand->offcuts_only == only) return *demand;
        at = only ? demand : demand + 1;
    }
    Demand made;
    made.material = &material;
    made.offcuts_only = only;
    return *bill.demands.insert(at, std::move(made));
}

void add_to_demand(const Taken& taken, const Run& run, const ShelfMaterial& material,
                   Demand& demand) {
    const WorkedPart& part = *part_behind(run, taken.origin.part);
    if (part.take == Take::count || part.take == Take::spread) {
        const base::Rational quantity = plain_quantity(part) * base::Rational(taken.number);
        demand.plains.push_back({taken.origin, quantity.ceiling()});
        return;
    }
    CutWant want = want_for(part, material, taken.origin);
    if (part.take != Take::piece) {
        want.count = taken.number;
        demand.cuts.push_back(want);
        return;
    }
    for (const Way& way : taken.ways) {
        if (way.count == 0) continue;
        want.count = way.count;
        want.joined_from = way.division.size();
        for (std::size_t i = 0; i < way.division.size(); ++i) {
            want.joint = i;
            want.starts_at = way.division[i].start;
            want.size.width = way.division[i].width.units();
            demand.cuts.push_back(want);
        }
    }
}

Bill make_bill(const std::vector<Run>& runs, const std::vector<ShelfMaterial>& shelf,
               const Arrangement& arrangement) {
    Bill bill;
    for (const Taken& taken : arrangement.taken) {
        const Run& run = runs[taken.origin.run];
        const WorkedPart& part = *part_behind(run, taken.origin.part);
        const ShelfMaterial& material = shelf[taken.material];
        if (grain_is_lost(part, material))
            bill.warnings.push_back(fmt::format(
                "{}: the grain of {} runs the other way, and its pattern does not let it be turned",
                title_of(run, taken.origin.part), material.code));
        add_to_demand(taken, run, material,
                      demand_for(bill, material, offcuts_only(run.design, part.slot)));
    }
    return bill;
}

} // namespace barrow::costing
