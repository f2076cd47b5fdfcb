#pragma once

#include "store/ledger/ledger.hpp"
#include "store/making/batches.hpp"
#include "store/selling/journals.hpp"
#include "workshop/shared/context.hpp"
#include "workshop/shared/settings.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace barrow::workshop {

/// One part of a batch, planned against actual. The actual cost of a material is divided among
/// the parts that use it as their planned costs are.
struct BatchPartLine {
    std::int64_t run = 0;
    std::string part;
    std::string material; ///< code
    base::Form form = base::Form::count;
    bool bulk_is_mass = false;
    std::int64_t quantity = 0; ///< planned
    base::Money planned;
    std::optional<base::Money> actual; ///< once it is cut
};

/// One material of a batch: units planned to be taken, and really taken.
struct BatchMaterialLine {
    std::string material; ///< code
    base::Form form = base::Form::count;
    bool bulk_is_mass = false;
    std::int64_t planned_sheets = 0; ///< sheets, rolls, strips: fresh ones and offcuts together
    std::int64_t cut_sheets = 0;
    std::int64_t spoiled = 0;
    base::Money planned;
    std::optional<base::Money> actual;
};

/// One design of a batch.
struct BatchRunLine {
    std::string design;
    std::string name;
    store::BatchRun planned;
    std::optional<store::FinishedRun> finished;
    std::int64_t seconds = 0;
};

/// Journals of a run with the papers they were given, where there was a choice.
struct BatchPapersLine {
    std::int64_t run = 0;
    std::int64_t first = 1; ///< journals of the run, counted from 1
    std::int64_t last = 1;
    struct Paper {
        std::string slot;
        std::string material; ///< code
        std::string name;
    };
    std::vector<Paper> papers;
};

/// A remnant the plan keeps, with the number by which `batch cut` knows it.
struct BatchRemnantLine {
    std::int64_t number = 0;
    std::string material; ///< code
    base::Form form = base::Form::sheet;
    base::StockSize size;
};

struct BatchReport {
    Settings settings;
    store::Batch batch;
    std::vector<store::Posting> entries; ///< that stand: planned, cut, finished, ...
    std::vector<BatchRunLine> runs;
    std::vector<BatchPapersLine> papers;
    std::vector<BatchPartLine> parts;
    std::vector<BatchMaterialLine> materials;
    std::vector<BatchRemnantLine> remnants;
};

/// A batch, planned against actual, in quantity, money and minutes. Throws base::Error
/// (Kind::bad_input) when there is no such batch.
BatchReport batch_report(store::Database& database, std::int64_t number);

/// All batches, newest first.
struct BatchListLine {
    store::Batch batch;
    std::string designs; ///< "4 quayside, 6 pebble"
    base::Date began;
};

std::vector<BatchListLine> list_batches(store::Database& database);

} // namespace barrow::workshop
