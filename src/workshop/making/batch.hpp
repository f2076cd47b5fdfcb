#pragma once

#include "store/making/batch_plans.hpp"
#include "store/making/batches.hpp"
#include "store/selling/journals.hpp"
#include "store/stock/catalogue.hpp"
#include "store/stock/offcuts.hpp"
#include "workshop/making/cost.hpp"
#include "workshop/shared/context.hpp"

#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace barrow::workshop {

/// A batch planned: stock is reserved and the plan kept, nothing is taken yet.
struct Planned {
    std::int64_t posting = 0;
    store::Batch batch;
    Costing costing;
};

/// Plans a batch as `cost` sees it. Throws base::Error (Kind::refused) naming every material that
/// is short, and by how much; and why the journals cannot be put together, unless how.anyway.
Planned plan_batch(Context& context, const std::vector<WantedRun>& wanted,
                   const HowToCost& how = {});

/// How cutting differed from the plan. Remnants are numbered 1, 2, 3, ... in the order in which
/// the bench sheet lists what is kept.
struct CutReport {
    /// Units (sheets, rolls, strips) spoiled beyond the plan, by material code.
    std::map<std::string, std::int64_t> spoiled;
    /// The lot they came from, by material code; else those the plan cut, then the oldest.
    std::map<std::string, std::int64_t> spoiled_from = {};
    /// Another size than planned; no size: not kept after all.
    std::map<std::int64_t, std::optional<base::StockSize>> remnants;
    /// Remnants the plan did not foresee, by material code.
    std::vector<std::pair<std::string, base::StockSize>> extra;
};

/// A batch cut: what was taken, and the offcuts with their labels.
struct Cut {
    std::int64_t posting = 0;
    store::Batch batch;
    std::vector<store::Offcut> offcuts;
    std::map<std::int64_t, store::Material> materials; ///< of the offcuts, by id
    std::vector<std::string> continued; ///< labels of lengths cut further, which keep their label
};

/// Cuts a planned batch: takes from lots and offcuts, logs what is kept. Throws base::Error:
/// Kind::refused when the batch is not planned, when the shelf no longer has what was reserved,
/// or when a remnant is larger than what was waste or planned to be kept.
Cut cut_batch(Context& context, std::int64_t number, const CutReport& report);
/// The same, when the plan and the settings are needed to understand what is reported: `read` is
/// called in the transaction of the cut, so that nothing can change in between.
Cut cut_batch_as_read(Context& context, std::int64_t number,
                      const std::function<CutReport()>& read);

/// How finishing went, for one run of the batch; what is not said is as planned.
struct FinishedCount {
    std::optional<std::int64_t> journals; ///< that came of it, seconds included; at least 1
    std::int64_t seconds = 0;             ///< of those, not good enough for the full price
    std::optional<base::Rational> minutes;
};

/// A batch finished: journals at what they really cost.
struct Finished {
    std::int64_t posting = 0;
    store::Batch batch;
    std::vector<store::FinishedRun> runs;
    std::vector<store::Journal> journals;
};

/// Finishes a batch that is cut. What went into it is divided among its runs material by material
/// as they were planned to use it (so each variant of a family bears its own), within a run among
/// the journals, each bearing the papers it was given (costing::share_among_journals); evenly when
/// fewer came of it than planned, for then it is not known which are missing. Throws base::Error
/// (Kind::refused) when the batch is not cut.
Finished finish_batch(Context& context, std::int64_t number,
                      const std::vector<FinishedCount>& counts);

/// A batch abandoned.
struct Abandoned {
    std::int64_t posting = 0;
    store::Batch batch;
    base::Money put_back;    ///< counted and poured things, back on their shelves
    base::Money written_off; ///< what was cut
};

/// Gives a batch up that is planned (nothing was taken) or cut (counted and poured things go back
/// on the shelf, what was cut is written off; offcuts kept stay kept).
Abandoned abandon_batch(Context& context, std::int64_t number);

/// A batch made in one go.
struct Made {
    std::int64_t posting = 0;
    store::Batch batch;
    Costing costing;
    std::vector<store::Offcut> offcuts;
    std::map<std::int64_t, store::Material> materials; ///< of the offcuts, by id
    std::vector<std::string> continued;
    std::vector<store::Journal> journals;
};

/// Plans, cuts and finishes as planned, in one transaction and one entry. Throws as plan_batch.
Made make(Context& context, const std::vector<WantedRun>& wanted, const HowToCost& how = {});

/// The batch of that number. Throws base::Error (Kind::bad_input) when there is none.
store::Batch batch_numbered(store::Database& database, std::int64_t number);

} // namespace barrow::workshop
