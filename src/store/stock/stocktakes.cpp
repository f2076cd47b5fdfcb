#include "store/stock/stocktakes.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

namespace barrow::store {
namespace {

constexpr const char* columns = "SELECT id, started_on, place, note, status FROM stocktake ";

Stocktake stocktake_from(SQLite::Statement& row) {
    Stocktake stocktake;
    stocktake.number = row.getColumn(0).getInt64();
    stocktake.started_on = base::read_date(row.getColumn(1).getString(), "stocktake started_on");
    stocktake.place = row.getColumn(2).getString();
    stocktake.note = row.getColumn(3).getString();
    const std::string status = row.getColumn(4).getString();
    if (status == "posted") stocktake.status = StocktakeStatus::posted;
    if (status == "dropped") stocktake.status = StocktakeStatus::dropped;
    return stocktake;
}

std::vector<Stocktake> stocktakes(SQLite::Statement& query) {
    std::vector<Stocktake> found;
    while (query.executeStep()) found.push_back(stocktake_from(query));
    return found;
}

std::optional<Stocktake> first_of(SQLite::Statement& query) {
    auto found = stocktakes(query);
    if (found.empty()) return std::nullopt;
    return found.front();
}

} // namespace

Stocktake add_stocktake(Database& database, Stocktake stocktake) {
    SQLite::Statement statement(database.sql(),
                                "INSERT INTO stocktake (started_on, place, note) VALUES (?, ?, ?)");
    statement.bind(1, base::to_text(stocktake.started_on));
    statement.bind(2, stocktake.place);
    statement.bind(3, stocktake.note);
    statement.exec();
    stocktake.number = database.sql().getLastInsertRowid();
    return stocktake;
}

std::optional<Stocktake> find_stocktake(Database& database, std::int64_t number) {
    SQLite::Statement query(database.sql(), std::string(columns) + "WHERE id = ?");
    query.bind(1, number);
    return first_of(query);
}

std::optional<Stocktake> open_stocktake(Database& database) {
    SQLite::Statement query(database.sql(), std::string(columns) + "WHERE status = 'open'");
    return first_of(query);
}

std::vector<Stocktake> all_stocktakes(Database& database) {
    SQLite::Statement query(database.sql(), std::string(columns) + "ORDER BY id DESC");
    return stocktakes(query);
}

void put_stocktake_line(Database& database, std::int64_t number, const StocktakeLine& line) {
    SQLite::Statement statement(
        database.sql(),
        "INSERT INTO stocktake_line (stocktake_id, material_id, offcut_id, counted, in_book, "
        "entered_at) VALUES (?, ?, ?, ?, ?, ?) ON CONFLICT (stocktake_id, material_id, offcut_id) "
        "DO UPDATE SET counted = excluded.counted, in_book = excluded.in_book, "
        "entered_at = excluded.entered_at");
    statement.bind(1, number);
    statement.bind(2, line.material_id);
    statement.bind(3, line.offcut_id);
    statement.bind(4, line.counted);
    statement.bind(5, line.in_book);
    statement.bind(6, line.entered_at);
    statement.exec();
}

std::vector<StocktakeLine> lines_of_stocktake(Database& database, std::int64_t number) {
    std::vector<StocktakeLine> lines;
    SQLite::Statement query(database.sql(),
                            "SELECT material_id, offcut_id, counted, in_book, entered_at "
                            "FROM stocktake_line WHERE stocktake_id = ? "
                            "ORDER BY material_id, offcut_id");
    query.bind(1, number);
    while (query.executeStep())
        lines.push_back({query.getColumn(0).getInt64(), query.getColumn(1).getInt64(),
                         query.getColumn(2).getInt64(), query.getColumn(3).getInt64(),
                         query.getColumn(4).getString()});
    return lines;
}

void close_stocktake(Database& database, std::int64_t number, StocktakeStatus status,
                     std::optional<std::int64_t> posting) {
    SQLite::Statement statement(database.sql(),
                                "UPDATE stocktake SET status = ?, posting_id = ? WHERE id = ?");
    statement.bind(1, status == StocktakeStatus::posted ? "posted" : "dropped");
    if (posting) statement.bind(2, *posting);
    statement.bind(3, number);
    statement.exec();
}

} // namespace barrow::store
