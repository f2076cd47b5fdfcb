#include "workshop/making/cost.hpp"

#include "base/error.hpp"
#include "base/hazard.hpp"
#include "base/text.hpp"
#include "design/work/slot_choice.hpp"
#include "store/making/batch_plans.hpp"
#include "store/stock/catalogue.hpp"
#include "workshop/making/cost_in_transaction.hpp"
#include "workshop/making/designs.hpp"
#include "workshop/shared/asking.hpp"
#include "workshop/stock/catalogue.hpp"
#include "workshop/stock/material_facts.hpp"
#include "workshop/stock/shelf.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

namespace barrow::workshop {
namespace {

void add_once(std::vector<std::string>& names, std::string_view name) {
    if (std::find(names.begin(), names.end(), name) == names.end()) names.emplace_back(name);
}

/// Brings the lots that were picked to the front, in the order in which they were named.
void pick_lots(costing::ShelfMaterial& material, const HowToCost& how) {
    const auto picks = how.picks.find(base::raised(material.code));
    if (picks == how.picks.end()) return;
    auto front = material.lots.begin();
    for (const std::int64_t id : picks->second) {
        const auto lot = std::find_if(front, material.lots.end(),
                                      [id](const auto& candidate) { return candidate.id == id; });
        if (lot == material.lots.end())
            throw base::bad_input(fmt::format("--lot {}={}", material.code, id),
                                  fmt::format("{} has no such lot on the shelf", material.code),
                                  fmt::format("see: barrow lots {}", material.code));
        std::rotate(front, lot, lot + 1);
        ++front;
    }
}

void add_to_shelf(store::Database& database, const std::string& code, const std::string& where,
                  const base::Date& today, const HowToCost& how,
                  const std::map<std::int64_t, std::int64_t>& reserved, Costing& costing,
                  std::vector<costing::ShelfMaterial>& shelf) {
    const store::Material material = material_called(database, code, where);
    if (std::any_of(shelf.begin(), shelf.end(),
                    [&](const auto& other) { return other.id == material.id; }))
        return;
    shelf.push_back(shelf_of(database, material, today, reserved));
    pick_lots(shelf.back(), how);
    add_hazards(material, costing.hazards);
}

/// Materials that the estimate takes from lots of the shelf.
std::vector<const costing::ShelfMaterial*> taken_from_lots(const costing::Estimate& estimate) {
    std::vector<const costing::ShelfMaterial*> taken;
    for (const costing::CutPlan& cut : estimate.cuts)
        if (std::any_of(cut.sheets.begin(), cut.sheets.end(), [](const auto& sheet) {
                return sheet.source.kind == costing::Source::Kind::lot;
            }))
            taken.push_back(cut.material);
    for (const costing::PlainTake& plain : estimate.plains)
        if (!plain.takes.empty()) taken.push_back(plain.material);
    return taken;
}

/// Where the maker picks the lot herself, she is asked for those of what the plan takes and that
/// lies in several, all at once; never for a paper that might have been taken and was not.
void require_picks(const Costing& costing, const HowToCost& how) {
    if (costing.settings.cost_order != CostOrder::pick_the_lot) return;
    std::vector<base::Problem> problems;
    for (const costing::ShelfMaterial* material : taken_from_lots(costing.estimate)) {
        if (how.picks.count(base::raised(material->code)) > 0) continue;
        const auto live = std::count_if(material->lots.begin(), material->lots.end(),
                                        [](const auto& lot) { return lot.quantity > 0; });
        if (live > 1)
            problems.push_back(
                {{},
                 fmt::format("{} lies in {} lots: it is not said which to take", material->code,
                             live),
                 fmt::format("see: barrow lots {0}; then add --lot {0}=NUMBER", material->code)});
    }
    if (!problems.empty()) throw base::Error(base::Kind::refused, problems);
}

/// Codes of every material that a part of the run may be taken from.
std::vector<std::string> codes_of(store::Database& database, const design::Worked& design,
                                  const design::WorkedPart& part) {
    const design::SlotChoice choice = design::choice_of(design, part);
    std::vector<std::string> codes = choice.codes;
    if (choice.collection.empty()) return codes;
    for (const store::Material& material : store::all_materials(database))
        if (base::lowered(material.collection) == base::lowered(choice.collection))
            codes.push_back(material.code);
    return codes;
}

/// Reads each material the runs may take once, in the order of first use.
void read_shelf(store::Database& database, const base::Date& today, const HowToCost& how,
                Costing& costing) {
    auto shelf = std::make_shared<std::vector<costing::ShelfMaterial>>();
    const auto reserved = store::reserved(database);
    for (const costing::Run& run : costing.runs) {
        const auto add = [&](const design::WorkedPart& part) {
            for (const std::string& code : codes_of(database, run.design, part))
                add_to_shelf(database, code,
                             fmt::format("part \"{}\" of {}", part.name, run.design.code), today,
                             how, reserved, costing, *shelf);
        };
        for (const design::WorkedPart& part : run.design.parts) add(part);
        for (const design::WorkedPart& filler : run.design.fillers) add(filler);
        for (const design::ExtraGlue& glue : run.design.extra_glue) {
            design::WorkedPart part;
            part.name = "glue of joins";
            part.material = glue.material;
            add(part);
        }
    }
    costing.shelf = shelf;
}

void gather_warnings(Costing& costing) {
    const auto add = [&](const std::string& text, design::Severity severity) {
        const bool said = std::any_of(costing.warnings.begin(), costing.warnings.end(),
                                      [&](const auto& other) { return other.text == text; });
        if (!said) costing.warnings.push_back({text, severity});
    };
    for (const costing::Run& run : costing.runs)
        for (const design::Warning& warning : run.design.warnings)
            add(costing.runs.size() > 1 ? run.design.code + ": " + warning.text : warning.text,
                warning.severity);
    for (const std::string& text : costing.estimate.warnings) add(text, design::Severity::mind);
    for (const std::string& text : costing.estimate.fillers_missing)
        add(text, design::Severity::mind);
}

} // namespace

void add_hazards(const store::Material& material, std::vector<std::string>& hazards) {
    if (base::is_cut(material.form)) add_once(hazards, base::name_of(base::Hazard::blade));
    if (material.form == base::Form::wire)
        add_once(hazards, base::name_of(base::Hazard::wire_ends));
    std::istringstream words(material.hazard);
    for (std::string word; words >> word;) add_once(hazards, word);
}

costing::CutOptions cut_options(const Settings& settings, const HowToCost& how) {
    costing::CutOptions options;
    options.minor_per_major = base::minor_per_major(settings.currency);
    options.layout.effort = how.effort;
    options.order = costing_order(settings.cost_order);
    options.offcut_share = settings.offcut_share;
    options.fillers_from_box = how.fillers_from_box;
    return options;
}

Costing cost_in_transaction(store::Database& database, const std::vector<WantedRun>& wanted,
                            const base::Date& today, const HowToCost& how) {
    Costing costing;
    costing.settings = read_settings(database);
    const design::Facts facts = facts_of(database);
    for (const WantedRun& want : wanted) {
        const CalledDesign called = design_read(database, want.design, "design");
        costing.runs.push_back(
            {design::work_out(called.design, want.changes, facts), want.journals});
        costing.designs.push_back(called.stored);
    }
    read_shelf(database, today, how, costing);
    const costing::CutOptions options = cut_options(costing.settings, how);
    const costing::Rates rates{costing.settings.per_hour.value_or(base::Money()),
                               costing.settings.overheads, costing.settings.overheads_on};
    costing.estimate = costing::estimate(costing.runs, *costing.shelf, rates, options);
    require_picks(costing, how);
    gather_warnings(costing);
    for (std::size_t i = 0; i < costing.runs.size(); ++i)
        costing.prices.push_back(price_of_run(costing.settings, costing.estimate.runs[i].total,
                                              costing.runs[i].journals));
    return costing;
}

Costing cost(store::Database& database, const std::vector<WantedRun>& wanted,
             const base::Date& today, const HowToCost& how) {
    return reading(database, [&] { return cost_in_transaction(database, wanted, today, how); });
}

} // namespace barrow::workshop
