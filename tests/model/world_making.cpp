// Batches: the shop plans, the naive book is handed the plan, judges it and works out the rest.

#include "model/supplies.hpp"
#include "model/world.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "store/making/batch_plans.hpp"
#include "store/making/batches.hpp"
#include "workshop/making/batch.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <set>

namespace model {

namespace ws = barrow::workshop;

namespace {

void require(bool fact, const std::string& what) {
    if (!fact) throw Disagreement(what);
}

/// What the runs want of each material: pieces and their measure all together; of what they need,
/// or of their fillers.
std::map<Count, Need> needs_of(const std::vector<ws::WantedRun>& wanted,
                               std::vector<Need> Recipe::*which = &Recipe::needs) {
    std::map<Count, Need> sums;
    for (const ws::WantedRun& run : wanted)
        for (const Recipe& recipe : recipes()) {
            if (recipe.code != run.design) continue;
            for (const Need& need : recipe.*which) {
                Need& sum = sums[need.material];
                sum.material = need.material;
                sum.pieces += need.pieces * run.journals;
                sum.measure += need.pieces * need.measure * run.journals;
            }
        }
    return sums;
}

} // namespace

std::vector<ws::WantedRun> World::wanted_runs(const Step& step) const {
    const auto [a, b, c, d] = step.numbers;
    std::vector<ws::WantedRun> wanted;
    if (a % 3 != 1) wanted.push_back({"leaf", 1 + b % 3, {}});
    if (a % 3 != 0) wanted.push_back({"book", 1 + c % 2, {}});
    return wanted;
}

/// Which lots to take first: those of each material from some lot on, as far as any are named.
ws::HowToCost World::how(const Step& step) const {
    ws::HowToCost how;
    how.effort = barrow::layout::Effort::quick;
    how.fillers_from_box = step.numbers[1] / 3 % 2 == 1;
    const int d = step.numbers[3];
    const bool name_them = book_.order() == Order::pick_the_lot ? d % 8 != 0 : d % 5 == 0;
    if (!name_them) return how;
    for (const Material& material : supplies()) {
        std::vector<Count> ids;
        for (const Lot& lot : book_.shelf(material.id)) ids.push_back(lot.id);
        if (ids.empty()) continue;
        std::rotate(ids.begin(), ids.begin() + d % static_cast<int>(ids.size()), ids.end());
        how.picks[material.code] = ids;
    }
    return how;
}

Plan World::kept_plan(Count batch_number) {
    const auto batch = barrow::store::find_batch(database_, batch_number);
    require(batch.has_value(), "the batch that was planned is not there");
    Plan plan;
    for (const auto& run : batch->runs) plan.journals.push_back(run.journals);
    for (const auto& planned : barrow::store::planned_sheets(database_, batch->id)) {
        Sheet sheet;
        sheet.material = planned.material_id;
        sheet.source = planned.source_id;
        sheet.measure = planned.size.width * planned.size.height;
        for (const auto& piece : planned.pieces) {
            const Count measure = piece.place.width * piece.place.height;
            sheet.pieces += measure;
            const bool filler =
                piece.part == "slip" || piece.part == "corner" || piece.part == "mark";
            if (filler) sheet.fillers += measure;
        }
        for (const auto& remnant : planned.remnants)
            sheet.remnants.push_back(
                {remnant.place.width, remnant.place.height, remnant.keeps_code});
        plan.sheets.push_back(sheet);
    }
    for (const auto& take : barrow::store::planned_takes(database_, batch->id))
        plan.takes.push_back({take.lot_id, take.material_id, take.quantity});
    for (const auto& part : barrow::store::parts_of(database_, batch->id))
        plan.parts.push_back({static_cast<std::size_t>(part.run), part.material_id, part.quantity,
                              part.cost.minor()});
    return plan;
}

/// Where lots are picked, nothing is taken from one of several that was not named.
void World::judge_pick(Count source, const ws::HowToCost& how) const {
    if (book_.order() != Order::pick_the_lot) return;
    for (const Lot& lot : book_.lots) {
        if (lot.id != source) continue;
        Count free = 0;
        for (const Lot& other : book_.shelf(lot.material))
            free += book_.pile(other.id, other.id).quantity > book_.reserved(other.id) ? 1 : 0;
        require(free < 2 || how.picks.count(book_.material(lot.material).code) > 0,
                "a plan takes from a lot that was not picked");
    }
}

/// Fillers: no more of them than are wanted, and no sheet for them alone but an offcut, when that
/// was asked for.
void World::judge_fillers(const Plan& plan, const ws::HowToCost& how,
                          const std::vector<ws::WantedRun>& wanted) const {
    const auto most = needs_of(wanted, &Recipe::fillers);
    std::map<Count, Count> measures;
    for (const Sheet& sheet : plan.sheets) {
        measures[sheet.material] += sheet.fillers;
        if (sheet.fillers < sheet.pieces) continue;
        require(how.fillers_from_box, "fillers come from the box, and nobody asked for it");
        require(book_.pile(sheet.source, sheet.source).quantity == 0,
                "a fresh sheet is taken for fillers");
    }
    for (const auto& [id, measure] : measures) {
        if (measure == 0) continue;
        require(most.count(id) > 0 && measure <= most.at(id).measure
                    && measure % (most.at(id).measure / most.at(id).pieces) == 0,
                "a plan cuts other fillers than were wanted");
    }
}

/// A plan takes only what is there and not reserved, offcuts whole and once, plain things from the
/// lots named first and then from the oldest, and cuts exactly the pieces wanted.
void World::judge_plan(const Plan& plan, const ws::HowToCost& how,
                       const std::vector<ws::WantedRun>& wanted) const {
    std::map<Count, Count> pieces, taken;
    for (const Sheet& sheet : plan.sheets) {
        require(sheet.waste() >= 0, "a planned sheet gives more than it has");
        pieces[sheet.material] += sheet.pieces - sheet.fillers;
        taken[sheet.source] += sheet.measure;
    }
    for (const auto& [source, measure] : taken) judge_pick(source, how);
    for (const Take& take : plan.takes) judge_pick(take.lot, how);
    for (const auto& [source, measure] : taken) {
        const bool fresh = book_.pile(source, source).quantity > 0;
        const Count there =
            fresh ? book_.pile(source, source).quantity : book_.all_of(source).quantity;
        require(measure + book_.reserved(source) <= there, "a plan takes more than is free");
        require(fresh || measure == there, "a plan takes part of an offcut");
    }
    std::map<Count, Count> expected, found;
    for (const auto& [id, need] : needs_of(wanted)) {
        const Material& material = book_.material(id);
        if (material.is_cut) {
            require(pieces[id] == need.measure, "a plan cuts other pieces than were wanted");
            continue;
        }
        std::vector<Count> ids;
        const auto picks = how.picks.find(material.code);
        if (picks != how.picks.end()) ids = picks->second;
        for (const Lot& lot : book_.shelf(id))
            if (std::find(ids.begin(), ids.end(), lot.id) == ids.end()) ids.push_back(lot.id);
        Count left = need.measure;
        for (const Count lot : ids) {
            const Count free =
                std::max<Count>(0, book_.pile(lot, lot).quantity - book_.reserved(lot));
            if (std::min(left, free) > 0) expected[lot] = std::min(left, free);
            left -= std::min(left, free);
        }
    }
    for (const Take& take : plan.takes) found[take.lot] += take.quantity;
    require(found == expected, "a plan takes plain things from other lots than it should");
}

/// Whether a plan must be refused is known where stock is plainly short; that it must not be, where
/// there is a whole unit for every piece.
void World::judge_refusal(const std::vector<ws::WantedRun>& wanted, const ws::HowToCost& how,
                          bool refused) const {
    bool must = false, may = false;
    for (const auto& [id, need] : needs_of(wanted)) {
        Count free = 0, whole = 0, lots = 0;
        for (const Lot& lot : book_.shelf(id)) {
            const Count here =
                std::max<Count>(0, book_.pile(lot.id, lot.id).quantity - book_.reserved(lot.id));
            free += here;
            whole += here / lot.unit;
            lots += here > 0 ? 1 : 0;
        }
        // Which lot is asked only of what the plan takes: a plain thing always, a paper when it is
        // not cut from offcuts alone.
        if (book_.order() == Order::pick_the_lot && how.picks.empty() && lots > 1)
            (book_.material(id).is_cut ? may : must) = true;
        if (!book_.material(id).is_cut) {
            must = must || free < need.measure;
            continue;
        }
        for (const Offcut& offcut : book_.offcuts_there())
            if (offcut.material == id && book_.reserved(offcut.id) == 0)
                free += book_.all_of(offcut.id).quantity;
        must = must || free < need.measure;
        may = may || whole < need.pieces;
    }
    require(!must || refused, "a batch was planned for which there is too little");
    require(must || may || !refused, "a batch was refused for which there is enough");
}

void World::plan(const Step& step) {
    const auto wanted = wanted_runs(step);
    const auto how_to = how(step);
    Count number = 0;
    bool refused = false;
    auto now = context();
    try {
        number = step.what == Do::make ? ws::make(now, wanted, how_to).batch.number
                                       : ws::plan_batch(now, wanted, how_to).batch.number;
    } catch (const barrow::base::Error& error) {
        require(error.kind() == barrow::base::Kind::refused,
                std::string("the shop failed: ") + error.what());
        refused = true;
    }
    ++(refused ? tally_[step.what].second : tally_[step.what].first);
    judge_refusal(wanted, how_to, refused);
    if (refused) return;
    const Plan kept = kept_plan(number);
    judge_plan(kept, how_to, wanted);
    judge_fillers(kept, how_to, wanted);
    for (const Sheet& sheet : kept.sheets) from_box_ += sheet.fillers == sheet.pieces ? 1 : 0;
    if (step.what == Do::make) {
        book_.make(today_, kept);
    } else {
        book_.plan(today_, kept);
    }
    name_new_things();
}

CutReport World::cut_report(const Batch& batch, const Step& step) const {
    const auto [a, b, c, d] = step.numbers;
    CutReport report;
    if (b % 4 == 0) report.spoiled[1 + b / 4 % 4] = 1 + b % 2;
    std::vector<Remnant> remnants;
    for (const Sheet& sheet : batch.plan.sheets)
        remnants.insert(remnants.end(), sheet.remnants.begin(), sheet.remnants.end());
    if (c % 3 == 0 && !remnants.empty()) {
        const auto at = static_cast<std::size_t>(c / 3) % remnants.size();
        Remnant size = remnants[at];
        if (d % 4 == 1) size.width = std::max<Count>(1, size.width / 2);
        if (d % 4 == 2) size.width += 1;
        report.changed[static_cast<Count>(at) + 1] = {d % 4 != 0, size};
    }
    if (d % 5 == 0) {
        const Count own = 1 + d / 5 % 4;
        Remnant size{30 * mm, 20 * mm * (1 + c % 3)};
        if (own == ribbon) size = {50 * mm, 1};
        if (own == wire) size = {1 + c % 3, 1};
        report.extra.emplace_back(own, size);
    }
    return report;
}

/// A batch that stands there, or any when the dice say so; null when there is none.
const Batch* World::batch_standing(const std::string& at, int dice) const {
    std::vector<const Batch*> fit;
    for (const Batch& batch : book_.batches)
        if (dice % 8 == 7 || book_.status(batch.number) == at) fit.push_back(&batch);
    return fit.empty() ? nullptr
                       : fit[fit.size() - 1 - static_cast<std::size_t>(dice) / 8 % fit.size()];
}

void World::cut(const Step& step) {
    const Batch* found = batch_standing("planned", step.numbers[0]);
    if (found == nullptr) return;
    const Batch& batch = *found;
    const Count number = batch.number;
    const CutReport report = cut_report(batch, step);
    ws::CutReport told;
    for (const auto& [id, units] : report.spoiled) told.spoiled[book_.material(id).code] = units;
    for (const auto& [at, change] : report.changed) {
        told.remnants[at] = std::nullopt;
        if (change.first)
            told.remnants[at] = barrow::base::StockSize{change.second.width, change.second.height};
    }
    for (const auto& [id, size] : report.extra)
        told.extra.emplace_back(book_.material(id).code,
                                barrow::base::StockSize{size.width, size.height});
    both(
        step, [&](ws::Context& now) { ws::cut_batch(now, number, told); },
        [&](Book& book) { book.cut(today_, number, report); });
}

void World::finish(const Step& step) {
    const auto [a, b, c, d] = step.numbers;
    const bool give_up_early = step.what == Do::abandon && d % 2 == 1;
    const Batch* found = batch_standing(give_up_early ? "planned" : "cut", a);
    if (found == nullptr) return;
    const Batch& batch = *found;
    const Count number = batch.number;
    if (step.what == Do::abandon) {
        both(
            step, [&](ws::Context& now) { ws::abandon_batch(now, number); },
            [&](Book& book) { book.abandon(today_, number); });
        return;
    }
    std::vector<Count> journals = batch.plan.journals;
    std::vector<ws::FinishedCount> counts(journals.size());
    if (b % 3 == 0) {
        journals.front() += c % 4 - 2;
        counts.front().journals = journals.front();
        counts.front().seconds = c % 8 == 3 ? 1 : 0;
    }
    both(
        step, [&](ws::Context& now) { ws::finish_batch(now, number, counts); },
        [&](Book& book) { book.finish(today_, number, journals); });
}

} // namespace model
