#include "store/stock/stocktakes.hpp"

#include "store/file/rows.hpp"

namespace barrow::store {
namespace {

constexpr const char* columns = "SELECT id, started_on, place, note, status FROM stocktake ";

Stocktake stocktake_from(Query& row) {
    Stocktake stocktake;
    stocktake.number = row.number();
    stocktake.started_on = row.date("stocktake started_on");
    stocktake.place = row.text();
    stocktake.note = row.text();
    const std::string status = row.text();
    if (status == "posted") stocktake.status = StocktakeStatus::posted;
    if (status == "dropped") stocktake.status = StocktakeStatus::dropped;
    return stocktake;
}

std::vector<Stocktake> stocktakes(Query& query) {
    std::vector<Stocktake> found;
    while (query.next()) found.push_back(stocktake_from(query));
    return found;
}

std::optional<Stocktake> first_of(Query& query) {
    auto found = stocktakes(query);
    if (found.empty()) return std::nullopt;
    return found.front();
}

} // namespace

Stocktake add_stocktake(Database& database, Stocktake stocktake) {
    stocktake.number =
        insert(database, "INSERT INTO stocktake (started_on, place, note) VALUES (?, ?, ?)",
               stocktake.started_on, stocktake.place, stocktake.note);
    return stocktake;
}

std::optional<Stocktake> find_stocktake(Database& database, std::int64_t number) {
    Query query(database, std::string(columns) + "WHERE id = ?", number);
    return first_of(query);
}

std::optional<Stocktake> open_stocktake(Database& database) {
    Query query(database, std::string(columns) + "WHERE status = 'open'");
    return first_of(query);
}

std::vector<Stocktake> all_stocktakes(Database& database) {
    Query query(database, std::string(columns) + "ORDER BY id DESC");
    return stocktakes(query);
}

void put_stocktake_line(Database& database, std::int64_t number, const StocktakeLine& line) {
    execute(
        database,
        "INSERT INTO stocktake_line (stocktake_id, material_id, offcut_id, counted, in_book, "
        "entered_at) VALUES (?, ?, ?, ?, ?, ?) ON CONFLICT (stocktake_id, material_id, offcut_id) "
        "DO UPDATE SET counted = excluded.counted, in_book = excluded.in_book, "
        "entered_at = excluded.entered_at",
        number, line.material_id, line.offcut_id, line.counted, line.in_book, line.entered_at);
}

std::vector<StocktakeLine> lines_of_stocktake(Database& database, std::int64_t number) {
    std::vector<StocktakeLine> lines;
    Query query(database,
                "SELECT material_id, offcut_id, counted, in_book, entered_at "
                "FROM stocktake_line WHERE stocktake_id = ? "
                "ORDER BY material_id, offcut_id",
                number);
    while (query.next())
        lines.push_back(
            {query.number(), query.number(), query.number(), query.number(), query.text()});
    return lines;
}

void close_stocktake(Database& database, std::int64_t number, StocktakeStatus status,
                     std::optional<std::int64_t> posting) {
    execute(database, "UPDATE stocktake SET status = ?, posting_id = ? WHERE id = ?",
            status == StocktakeStatus::posted ? "posted" : "dropped", posting, number);
}

} // namespace barrow::store
