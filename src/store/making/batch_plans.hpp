#pragma once

#include "base/form.hpp"
#include "base/money.hpp"
#include "store/file/database.hpp"

#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace barrow::store {

/// Where something lies on a sheet.
struct Place {
    std::int64_t x = 0, y = 0, width = 0, height = 0;
    base::Wide area() const { return base::Wide{width} * height; }
};

struct PlannedPiece {
    std::int64_t run = 0;
    std::string part;
    Place place;
};

struct PlannedRemnant {
    Place place;
    bool keeps_code = false; ///< what is left of a length cut further
};

/// A sheet, roll or strip a batch is planned to cut; see schema/3_making.sql.
struct PlannedSheet {
    std::int64_t id = 0;
    std::int64_t material_id = 0;
    std::int64_t source_id = 0; ///< a lot's shelf or an offcut
    std::int64_t plan = 0;
    base::StockSize size;
    std::vector<PlannedPiece> pieces;
    std::vector<PlannedRemnant> remnants;
};

/// A counted or poured quantity a batch is planned to take.
struct PlannedTake {
    std::int64_t lot_id = 0;
    std::int64_t material_id = 0;
    std::int64_t quantity = 0;
};

void add_planned_sheet(Database& database, std::int64_t batch, const PlannedSheet& sheet);
void add_planned_take(Database& database, std::int64_t batch, const PlannedTake& take);

/// Sheets of a batch with pieces and remnants, in the order of the plan.
std::vector<PlannedSheet> planned_sheets(Database& database, std::int64_t batch);
std::vector<PlannedTake> planned_takes(Database& database, std::int64_t batch);

/// What planned batches have reserved of each lot and offcut (by holder), in the form's measure:
/// the sheets, rolls and things they will take. Cost grows with what is planned, not with the
/// ledger. Batch `except` is left out.
std::map<std::int64_t, std::int64_t> reserved(Database& database, std::int64_t except = 0);

/// The same for fresh stock, in whole units (thousandths of bulk) by material; offcuts left out.
std::map<std::int64_t, std::int64_t> units_reserved(Database& database);

/// A sheet as it was really cut.
struct CutSheet {
    std::int64_t id = 0;
    std::int64_t posting_id = 0;
    std::int64_t batch_id = 0;
    std::int64_t planned_id = 0; ///< 0: spoiled
    std::int64_t source_id = 0;
    base::StockSize size;
    base::Money cost;
    std::int64_t pieces = 0, kept = 0, waste = 0;
    base::Money kept_value;
};

/// Numbers of the planned batches that have something of this lot or offcut reserved.
std::vector<std::int64_t> batches_reserving(Database& database, std::int64_t holder);

void add_cut_sheet(Database& database, const CutSheet& sheet);
/// Sheets that the cutting posting cut.
std::vector<CutSheet> cut_sheets(Database& database, std::int64_t posting);

} // namespace barrow::store
