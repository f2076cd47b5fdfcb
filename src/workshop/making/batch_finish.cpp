#include "workshop/making/batch_steps.hpp"

#include "base/error.hpp"
#include "costing/price/journal_shares.hpp"
#include "store/ledger/ledger.hpp"
#include "store/stock/lots.hpp"
#include "workshop/making/batch_shares.hpp"
#include "workshop/making/work_account.hpp"

#include <fmt/format.h>

#include <map>

namespace barrow::workshop {
namespace {

using base::Money;
using base::Rational;

/// What the batch holds of each material.
std::map<std::int64_t, Money> held_by_material(store::Database& database, std::int64_t batch) {
    std::map<std::int64_t, Money> held;
    for (const store::Balance& balance : store::balances_of(database, batch))
        held[store::lot_by_id(database, balance.lot).value().material_id] += balance.value;
    return held;
}

using Parts = std::vector<store::BatchPart>;
using Held = std::map<std::int64_t, Money>; ///< by material

/// Divides what the batch holds among its runs: each material as they were planned to use it.
std::vector<Money> materials_of_runs(const Held& held, const Parts& parts,
                                     const store::Batch& batch) {
    std::map<std::int64_t, std::vector<base::Wide>> planned; // material: cost in each run
    std::map<std::int64_t, std::vector<base::Wide>> amounts; // material: quantity in each run
    for (const store::BatchPart& part : parts) {
        auto& costs = planned[part.material_id];
        auto& quantities = amounts[part.material_id];
        costs.resize(batch.runs.size());
        quantities.resize(batch.runs.size());
        costs[static_cast<std::size_t>(part.run)] += part.cost.minor();
        quantities[static_cast<std::size_t>(part.run)] += part.quantity;
    }
    std::vector<Money> materials(batch.runs.size());
    for (const auto& [material, value] : held) {
        const auto shares = share_as_planned(value, planned[material], amounts[material]);
        for (std::size_t r = 0; r < shares.size(); ++r) materials[r] += shares[r];
    }
    return materials;
}

class Completing {
public:
    Completing(Context& context, std::int64_t posting, const store::Batch& batch,
               const std::vector<FinishedCount>& counts)
        : database_(context.database), batch_(batch), settings_(read_settings(context.database)),
          writer_(context.database, posting) {
        finished_.posting = posting;
        finished_.batch = batch;
        counts_ = counts;
        counts_.resize(batch.runs.size());
    }

    Finished run() {
        const Held in_batch = held_by_material(database_, batch_.id);
        parts_ = store::parts_of(database_, batch_.id);
        papers_ = store::papers_of(database_, batch_.id);
        part_costs_ = share_among_parts(in_batch, parts_);
        const auto materials = materials_of_runs(in_batch, parts_, batch_);
        WorkAccount account(database_, writer_, batch_.id);
        const Money held = account.finish();
        next_ = store::journals_ever(database_, batch_.id);
        Money booked;
        for (std::size_t r = 0; r < batch_.runs.size(); ++r) {
            const store::FinishedRun run = total_up(r, materials[r]);
            store::add_finished_run(database_, run);
            book(run, counts_[r]);
            booked += run.materials;
            finished_.runs.push_back(run);
        }
        if (booked != held)
            throw base::broken("the journals of a batch do not carry what went into it");
        return std::move(finished_);
    }

private:
    store::FinishedRun total_up(std::size_t r, Money materials) const {
        const store::BatchRun& planned = batch_.runs[r];
        const FinishedCount& count = counts_[r];
        store::FinishedRun run;
        run.posting_id = finished_.posting;
        run.batch_id = batch_.id;
        run.run = static_cast<std::int64_t>(r);
        run.journals = count.journals.value_or(planned.journals);
        if (run.journals < 1 || run.journals > planned.journals || count.seconds < 0
            || count.seconds > run.journals)
            throw base::refused(
                fmt::format("batch {} was planned for {} journals: {} with {} seconds cannot be",
                            batch_.number, planned.journals, run.journals, count.seconds),
                "one journal at least, none more than planned; or abandon the batch");
        const Rational minutes = count.minutes.value_or(planned.minutes);
        run.minutes = (minutes * Rational(1'000)).rounded();
        run.materials = materials;
        run.labour = base::times(settings_.per_hour.value_or(Money()), minutes / Rational(60));
        const Money base_of_overheads = settings_.overheads_on == costing::Rates::Base::labour
                                            ? run.labour
                                            : run.materials + run.labour;
        run.overheads = base::times(base_of_overheads, settings_.overheads);
        return run;
    }

    void book(const store::FinishedRun& run, const FinishedCount& count) {
        const auto number = static_cast<std::size_t>(run.journals);
        const bool by_cost = settings_.overheads_on != costing::Rates::Base::labour;
        const auto costs = costing::share_work(materials_of_journals(run), run.labour,
                                               run.overheads, by_cost, kinds_of_journals(run));
        for (std::size_t j = 0; j < number; ++j) {
            store::Journal journal;
            journal.posting_id = run.posting_id;
            journal.serial = fmt::format("{}-{:02}", batch_.number, ++next_);
            journal.batch_id = batch_.id;
            journal.run = run.run;
            journal.materials = costs.materials[j];
            journal.labour = costs.labour[j];
            journal.overheads = costs.overheads[j];
            journal.second = static_cast<std::int64_t>(number - j) <= count.seconds;
            journal.id = store::add_journal(database_, journal);
            writer_.move(
                {0, 0, "finish", std::nullopt, store::made, journal.id, 1, journal.materials});
            if (all_made(run)) keep_papers(journal, static_cast<std::int64_t>(j) + 1);
            finished_.journals.push_back(journal);
        }
    }

    /// When fewer came of it than planned, nobody knows which of them are missing.
    bool all_made(const store::FinishedRun& run) const {
        return run.journals == batch_.runs[static_cast<std::size_t>(run.run)].journals;
    }

    /// Journals of one number have the same papers.
    std::vector<std::int64_t> kinds_of_journals(const store::FinishedRun& run) const {
        std::vector<std::int64_t> kinds;
        std::map<std::vector<std::int64_t>, std::int64_t> numbers;
        for (std::int64_t j = 1; j <= run.journals; ++j) {
            std::vector<std::int64_t> papers;
            if (all_made(run))
                for (const store::BatchPaper& paper : papers_)
                    if (paper.run == run.run && j >= paper.first && j <= paper.last)
                        papers.push_back(paper.material_id);
            const auto next = static_cast<std::int64_t>(numbers.size());
            kinds.push_back(numbers.emplace(papers, next).first->second);
        }
        return kinds;
    }

    /// Each journal bears the papers it has.
    std::vector<Money> materials_of_journals(const store::FinishedRun& run) const {
        std::vector<costing::PartShare> shares;
        for (std::size_t p = 0; p < parts_.size(); ++p) {
            if (parts_[p].run != run.run) continue;
            shares.push_back({part_costs_[p], {}});
            if (!all_made(run) || parts_[p].slot.empty()) continue;
            for (const store::BatchPaper& paper : papers_)
                if (paper.run == run.run && paper.slot == parts_[p].slot
                    && paper.material_id == parts_[p].material_id)
                    shares.back().journals.emplace_back(paper.first, paper.last);
        }
        return costing::share_among_journals(run.materials, run.journals, shares);
    }

    /// Of the journal that stands at this place in its run.
    void keep_papers(store::Journal& journal, std::int64_t number) const {
        for (const store::BatchPaper& paper : papers_) {
            if (paper.run != journal.run || number < paper.first || number > paper.last) continue;
            store::add_journal_paper(database_, journal.id, paper.slot, paper.material_id);
            journal.papers.push_back({paper.slot, paper.material});
        }
    }

    store::Database& database_;
    const store::Batch& batch_;
    Settings settings_;
    Parts parts_;
    std::vector<store::BatchPaper> papers_;
    std::vector<Money> part_costs_; ///< beside parts_
    store::MovementWriter writer_;
    std::vector<FinishedCount> counts_;
    std::int64_t next_ = 0;
    Finished finished_;
};

} // namespace

Finished complete(Context& context, std::int64_t posting, const store::Batch& batch,
                  const std::vector<FinishedCount>& counts) {
    return Completing(context, posting, batch, counts).run();
}

} // namespace barrow::workshop
