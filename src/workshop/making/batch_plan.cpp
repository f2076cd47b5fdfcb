#include "workshop/making/batch_steps.hpp"

#include "base/error.hpp"
#include "design/work/slot_choice.hpp"
#include "workshop/shared/quantity_text.hpp"

#include <fmt/format.h>

#include <utility>

#include <map>

namespace barrow::workshop {
namespace {

using costing::CutPlan;
using costing::SheetUse;

base::Error short_of(const Costing& costing) {
    std::vector<base::Problem> problems;
    for (const costing::Shortage& shortage : costing.estimate.shortages)
        problems.push_back(
            {{},
             fmt::format("{} ({}): {} short", shortage.material, shortage.name,
                         units_text(shortage.form, shortage.bulk_is_mass, shortage.units)),
             "receive more, make fewer, or see: barrow reorder"});
    return {base::Kind::refused, problems};
}

store::Place place_of(const layout::Rectangle& r) {
    return {r.x, r.y, r.width, r.height};
}

store::Batch runs_of(const Costing& costing, const std::vector<WantedRun>& wanted) {
    store::Batch batch;
    for (std::size_t i = 0; i < wanted.size(); ++i) {
        const costing::RunTotals& totals = costing.estimate.runs[i];
        // Which of a family it is is kept with what else the maker chose.
        auto set = wanted[i].changes.parameters;
        const design::Worked& design = costing.runs[i].design;
        if (design.code != costing.designs[i].code)
            set["variant"] = design.code.substr(design.code.rfind('.') + 1);
        batch.runs.push_back({costing.designs[i].text_id, wanted[i].journals, totals.minutes,
                              totals.materials, totals.labour, totals.overheads, std::move(set),
                              wanted[i].changes.materials, design.code, design.name});
    }
    return batch;
}

store::PlannedSheet sheet_of(const Costing& costing, const CutPlan& plan, const SheetUse& use,
                             std::int64_t number) {
    store::PlannedSheet sheet;
    sheet.material_id = plan.material->id;
    sheet.source_id = use.source.id;
    sheet.plan = number;
    sheet.size = use.size;
    for (const layout::Placed& placed : plan.outcome.plans[use.plan].pieces) {
        const costing::Origin& origin = plan.wants[placed.piece].origin;
        sheet.pieces.push_back({static_cast<std::int64_t>(origin.run),
                                costing::part_name(costing.runs[origin.run], origin.part),
                                place_of(placed.place)});
    }
    for (const costing::Kept& kept : use.kept)
        sheet.remnants.push_back({place_of(kept.place), kept.keeps_code});
    return sheet;
}

/// Plans are numbered through all materials, so that one number names one drawing.
void keep_sheets(Context& context, const Costing& costing, std::int64_t batch) {
    std::int64_t first = 0;
    for (const CutPlan& plan : costing.estimate.cuts) {
        for (const SheetUse& use : plan.sheets)
            store::add_planned_sheet(
                context.database, batch,
                sheet_of(costing, plan, use, first + static_cast<std::int64_t>(use.plan)));
        first += static_cast<std::int64_t>(plan.outcome.plans.size());
    }
}

void keep_takes(Context& context, const Costing& costing, std::int64_t batch) {
    for (const costing::PlainTake& plain : costing.estimate.plains)
        for (const costing::LotTake& take : plain.takes)
            if (take.quantity > 0)
                store::add_planned_take(context.database, batch,
                                        {take.lot, plain.material->id, take.quantity});
}

/// The slot whose choice of paper the part follows, journal by journal; empty when it has none.
/// Fillers are cut from whatever paper has room.
std::string slot_with_choice(const Costing& costing, const costing::Origin& origin) {
    const design::Worked& design = costing.runs[origin.run].design;
    if (origin.part >= design.parts.size()) return {};
    const auto* decides = design::deciding_slot(design, design.parts[origin.part].slot);
    if (decides == nullptr) return {};
    for (const costing::PaperRow& row : costing.estimate.rows)
        if (row.run == origin.run)
            for (const auto& [slot, paper] : row.papers)
                if (slot == decides->name) return slot;
    return {};
}

void keep_parts(Context& context, const Costing& costing, std::int64_t batch) {
    std::map<std::string, std::int64_t> ids;
    for (const costing::ShelfMaterial& material : *costing.shelf) ids[material.code] = material.id;
    std::int64_t seq = 0;
    for (const costing::Line& line : costing.estimate.lines)
        store::add_batch_part(context.database, batch, seq++,
                              {static_cast<std::int64_t>(line.origin.run), line.part,
                               ids.at(line.material), line.quantity, line.cost,
                               slot_with_choice(costing, line.origin)});
}

void keep_papers(Context& context, const Costing& costing, std::int64_t batch) {
    for (const costing::PaperRow& row : costing.estimate.rows)
        for (const auto& [slot, paper] : row.papers)
            store::add_batch_paper(context.database, batch,
                                   {static_cast<std::int64_t>(row.run), row.first, row.last, slot,
                                    (*costing.shelf)[paper].id});
}

} // namespace

Context with_reasons(const Context& context, const Costing& costing, bool anyway) {
    Context own = context;
    std::vector<base::Problem> problems;
    for (const design::Warning& warning : costing.warnings) {
        if (warning.severity != design::Severity::stops) continue;
        problems.push_back({{}, "it cannot be put together: " + warning.text, {}});
        own.note += fmt::format("{}made anyway: {}", own.note.empty() ? "" : "; ", warning.text);
    }
    if (problems.empty() || anyway) return own;
    problems.back().hint = "change the design or its values with --set and --use; "
                           "or add --anyway to book it all the same";
    throw base::Error(base::Kind::refused, problems);
}

store::Batch keep_plan(Context& context, const Costing& costing,
                       const std::vector<WantedRun>& wanted) {
    if (!costing.estimate.shortages.empty()) throw short_of(costing);
    store::Batch batch = store::add_batch(context.database, runs_of(costing, wanted));
    keep_sheets(context, costing, batch.id);
    keep_takes(context, costing, batch.id);
    keep_parts(context, costing, batch.id);
    keep_papers(context, costing, batch.id);
    return batch;
}

} // namespace barrow::workshop
