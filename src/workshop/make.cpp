#include "workshop/bench.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "workshop/cost_in_transaction.hpp"
#include "workshop/quantity_text.hpp"
#include "workshop/work_account.hpp"

#include <fmt/format.h>

namespace barrow::workshop {
namespace {

using base::Money;
using costing::CutPlan;
using costing::SheetUse;
using costing::Source;

base::Error short_of(const Costing& costing) {
    std::vector<base::Problem> problems;
    for (const costing::Shortage& shortage : costing.estimate.shortages)
        problems.push_back({{},
                            fmt::format("{} ({}): {} short", shortage.material, shortage.name,
                                        units_text(shortage.form, shortage.bulk_is_mass,
                                                   shortage.units)),
                            "receive more, make fewer, or see: barrow reorder"});
    return {base::Kind::refused, problems};
}

class Maker {
public:
    Maker(Context& context, Costing costing, const std::vector<WantedRun>& wanted)
        : context_(context), wanted_(wanted) {
        made_.costing = std::move(costing);
    }

    Made run() {
        made_.posting = post(context_, "make", context_.today);
        store::MovementWriter writer(context_.database, made_.posting);
        add_batch();
        WorkAccount account(context_.database, writer, made_.batch.id);
        for (const CutPlan& plan : made_.costing.estimate.cuts) cut(plan, account);
        for (const costing::PlainTake& take : made_.costing.estimate.plains)
            for (const costing::LotTake& lot : take.takes) account.take_lot(take.material->id, lot);
        finish(writer, account);
        return std::move(made_);
    }

private:
    void add_batch() {
        store::Batch batch;
        batch.posting_id = made_.posting;
        for (std::size_t i = 0; i < wanted_.size(); ++i) {
            const costing::RunTotals& totals = made_.costing.estimate.runs[i];
            batch.runs.push_back({made_.costing.designs[i].text_id, wanted_[i].journals,
                                  totals.materials, totals.labour, totals.overheads,
                                  wanted_[i].changes.parameters, wanted_[i].changes.materials});
        }
        made_.batch = store::add_batch(context_.database, batch);
    }

    void cut(const CutPlan& plan, WorkAccount& account) {
        for (const costing::LotTake& take : plan.takes) account.take_lot(plan.material->id, take);
        for (const SheetUse& sheet : plan.sheets) {
            const std::int64_t lot = take_source(plan, sheet, account);
            for (const costing::Kept& kept : sheet.kept)
                if (!kept.keeps_code) keep(plan, kept, lot, account);
            record(plan, sheet);
        }
    }

    /// Takes an offcut into work (lots were taken before); gives the lot the sheet is of.
    std::int64_t take_source(const CutPlan& plan, const SheetUse& sheet, WorkAccount& account) {
        if (sheet.source.kind == Source::Kind::lot) return sheet.source.id;
        const costing::ShelfOffcut* offcut = nullptr;
        for (const costing::ShelfOffcut& candidate : plan.material->offcuts)
            if (candidate.id == sheet.source.id) offcut = &candidate;
        if (offcut == nullptr) throw base::broken("a plan uses an offcut that is not there");
        auto quantity = static_cast<std::int64_t>(sheet.size.measure());
        Money value = sheet.cost;
        for (const costing::Kept& kept : sheet.kept) {
            if (!kept.keeps_code) continue;
            // What is left of the length stays where it is, under its code.
            quantity -= kept.place.width * kept.place.height;
            value -= kept.value;
            made_.continued.push_back(offcut->code);
        }
        account.take_offcut(plan.material->id, offcut->id, offcut->lot, quantity, value);
        return offcut->lot;
    }

    void keep(const CutPlan& plan, const costing::Kept& kept, std::int64_t lot,
              WorkAccount& account) {
        store::Offcut offcut;
        offcut.posting_id = made_.posting;
        offcut.material_id = plan.material->id;
        offcut.lot_id = lot;
        offcut.size = {kept.place.width, kept.place.height};
        offcut.kept_on = context_.today;
        offcut = store::add_offcut(context_.database, offcut);
        account.keep(plan.material->id, offcut.id, lot,
                     static_cast<std::int64_t>(offcut.size.measure()), kept.value);
        made_.offcuts.push_back(offcut);
    }

    void record(const CutPlan& plan, const SheetUse& sheet) {
        std::vector<store::BatchPiece> pieces;
        for (const layout::Placed& placed : plan.outcome.plans[sheet.plan].pieces) {
            const costing::Origin& origin = plan.wants[placed.piece].origin;
            const layout::Rectangle& place = placed.place;
            pieces.push_back({static_cast<std::int64_t>(origin.run),
                              made_.costing.runs[origin.run].design.parts[origin.part].name,
                              place.x, place.y, place.width, place.height});
        }
        store::add_batch_sheet(context_.database, made_.batch.id,
                               {0, sheet.source.id, static_cast<std::int64_t>(sheet.plan),
                                sheet.size, sheet.cost, sheet.pieces_measure, sheet.kept_measure,
                                sheet.waste_measure},
                               pieces);
    }

    void finish(store::MovementWriter& writer, WorkAccount& account) {
        const Money held = account.finish();
        Money booked;
        std::int64_t number = 0;
        for (std::size_t r = 0; r < wanted_.size(); ++r) {
            const store::BatchRun& run = made_.batch.runs[r];
            const auto count = static_cast<std::size_t>(run.journals);
            const auto materials = base::split_evenly(run.materials, count);
            const auto labour = base::split_evenly(run.labour, count);
            const auto overheads = base::split_evenly(run.overheads, count);
            for (std::size_t j = 0; j < count; ++j) {
                store::Journal journal;
                journal.posting_id = made_.posting;
                journal.serial = fmt::format("{}-{:02}", made_.batch.number, ++number);
                journal.batch_id = made_.batch.id;
                journal.run = static_cast<std::int64_t>(r);
                journal.materials = materials[j];
                journal.labour = labour[j];
                journal.overheads = overheads[j];
                journal.id = store::add_journal(context_.database, journal);
                writer.move({0, 0, "finish", std::nullopt, store::made, journal.id, 1,
                             journal.materials});
                booked += journal.materials;
                made_.journals.push_back(journal);
            }
        }
        if (booked != held)
            throw base::broken("the journals of a batch do not carry what went into it");
    }

    Context& context_;
    const std::vector<WantedRun>& wanted_;
    Made made_;
};

} // namespace

Made make(Context& context, const std::vector<WantedRun>& wanted, layout::Effort effort) {
    return writing(context, [&] {
        Costing costing = cost_in_transaction(context.database, wanted, context.today, effort);
        if (!costing.estimate.shortages.empty()) throw short_of(costing);
        return Maker(context, std::move(costing), wanted).run();
    });
}

} // namespace barrow::workshop
