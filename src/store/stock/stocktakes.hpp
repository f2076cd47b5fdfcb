#pragma once

#include "base/date.hpp"
#include "store/file/database.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace barrow::store {

enum class StocktakeStatus { open, posted, dropped };

/// A stocktake; see schema/4_stock_book.sql.
struct Stocktake {
    std::int64_t number = 0;
    base::Date started_on;
    std::string place;
    std::string note;
    StocktakeStatus status = StocktakeStatus::open;
};

/// One thing counted. `offcut_id` 0: whole units of the material on the shelf (bulk: thousandths).
struct StocktakeLine {
    std::int64_t material_id = 0;
    std::int64_t offcut_id = 0;
    std::int64_t counted = 0;
    std::int64_t in_book = 0;
    std::string entered_at;
};

Stocktake add_stocktake(Database& database, Stocktake stocktake);
std::optional<Stocktake> find_stocktake(Database& database, std::int64_t number);
/// The one that is open, if any.
std::optional<Stocktake> open_stocktake(Database& database);
std::vector<Stocktake> all_stocktakes(Database& database);

/// Enters a line, in the place of an earlier one for the same thing.
void put_stocktake_line(Database& database, std::int64_t number, const StocktakeLine& line);
std::vector<StocktakeLine> lines_of_stocktake(Database& database, std::int64_t number);

void close_stocktake(Database& database, std::int64_t number, StocktakeStatus status,
                     std::optional<std::int64_t> posting);

} // namespace barrow::store
