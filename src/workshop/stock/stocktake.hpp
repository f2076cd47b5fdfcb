#pragma once

#include "store/stock/stocktakes.hpp"
#include "workshop/shared/context.hpp"
#include "workshop/shared/fields.hpp"
#include "workshop/shared/settings.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace barrow::workshop {

/// Fields a line of a count may have: code (of a material or an offcut's label), counted.
const std::vector<std::string>& count_fields();

/// Starts a stocktake, of everything or of what is kept at one place. Throws base::Error
/// (Kind::refused) while another is open.
store::Stocktake start_stocktake(Context& context, const std::string& place);

/// Enters what was counted into the open stocktake: a material's whole units on the shelf ("12",
/// "180 ml"), or for an offcut's label 1 (there) or 0 (not there). What the book has at this moment
/// is noted beside it, so stock may move before and after. A thing counted again replaces its line.
/// All rows or none. Gives how many lines were entered.
std::int64_t enter_counts(Context& context, const std::vector<Row>& rows);

/// One thing counted, against the book.
struct CountLine {
    std::string code; ///< of the material, or the offcut's label
    std::string name;
    base::Form form = base::Form::count;
    bool bulk_is_mass = false;
    bool offcut = false;
    std::int64_t counted = 0;
    std::int64_t in_book = 0;
    base::Money value; ///< of the difference, at what a correction would move; surplus is worth 0
};

struct CountSheet {
    Settings settings;
    store::Stocktake stocktake;
    std::vector<CountLine> lines;
    std::vector<std::string> not_counted; ///< codes and labels kept there but not counted yet
};

/// The open stocktake (or the one of that number): differences in quantity and value.
CountSheet count_sheet(store::Database& database, std::int64_t number = 0);

/// A stocktake posted.
struct CountPosted {
    std::int64_t posting = 0;
    std::int64_t corrected = 0; ///< lines with a difference
    base::Money missing;        ///< value written off
};

/// Corrects the book by the differences, in one entry, and closes the stocktake. What is missing
/// is written off in the shop's cost order; what is too much first takes back what earlier counts
/// wrote off of that material, at its cost, and beyond that comes in as a lot that cost nothing.
/// Throws base::Error (Kind::refused) when none is open or something missing is no longer there
/// to be written off.
CountPosted post_stocktake(Context& context);

/// Closes the open stocktake without correcting anything.
store::Stocktake drop_stocktake(Context& context);

} // namespace barrow::workshop
