#include "workshop/shared/asking.hpp"

#include "base/error.hpp"
#include "store/selling/fairs.hpp"

namespace barrow::workshop {

using base::Money;

std::optional<costing::Price> price_of_run(const Settings& settings, Money total,
                                           std::int64_t journals) {
    if (!settings.per_hour) return std::nullopt;
    return costing::price_for(total, settings.margin, settings.price_points, journals);
}

std::optional<Money> AskingPrices::of(const store::Journal& journal) {
    if (journal.price) return journal.price;
    if (const auto fixed = store::asked_at_fair(database_, journal.id)) return fixed;
    const std::pair key(journal.posting_id, journal.run);
    const auto known = runs_.find(key);
    if (known != runs_.end()) return known->second;
    for (const store::FinishedRun& run : store::finished_runs(database_, journal.posting_id)) {
        const auto price =
            price_of_run(settings_, run.materials + run.labour + run.overheads, run.journals);
        runs_[{journal.posting_id, run.run}] = price ? std::optional(price->asked) : std::nullopt;
    }
    const auto found = runs_.find(key);
    if (found == runs_.end())
        throw base::broken("journal " + journal.serial + " was finished without a run");
    return found->second;
}

} // namespace barrow::workshop
