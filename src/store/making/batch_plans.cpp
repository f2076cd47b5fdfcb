#include "store/making/batch_plans.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

namespace barrow::store {
namespace {

void bind_place(SQLite::Statement& statement, int first, const Place& place) {
    statement.bind(first, place.x);
    statement.bind(first + 1, place.y);
    statement.bind(first + 2, place.width);
    statement.bind(first + 3, place.height);
}

Place place_from(SQLite::Statement& row, int first) {
    return {row.getColumn(first).getInt64(), row.getColumn(first + 1).getInt64(),
            row.getColumn(first + 2).getInt64(), row.getColumn(first + 3).getInt64()};
}

void add_pieces(Database& database, std::int64_t sheet, const std::vector<PlannedPiece>& pieces) {
    SQLite::Statement statement(database.sql(),
                                "INSERT INTO batch_piece (sheet_id, seq, run, part, x, y, width, "
                                "height) VALUES (?, ?, ?, ?, ?, ?, ?, ?)");
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        statement.reset();
        statement.bind(1, sheet);
        statement.bind(2, static_cast<std::int64_t>(i));
        statement.bind(3, pieces[i].run);
        statement.bind(4, pieces[i].part);
        bind_place(statement, 5, pieces[i].place);
        statement.exec();
    }
}

void add_remnants(Database& database, std::int64_t sheet,
                  const std::vector<PlannedRemnant>& remnants) {
    SQLite::Statement statement(database.sql(),
                                "INSERT INTO batch_remnant (sheet_id, seq, x, y, width, height, "
                                "keeps_code) VALUES (?, ?, ?, ?, ?, ?, ?)");
    for (std::size_t i = 0; i < remnants.size(); ++i) {
        statement.reset();
        statement.bind(1, sheet);
        statement.bind(2, static_cast<std::int64_t>(i));
        bind_place(statement, 3, remnants[i].place);
        statement.bind(7, remnants[i].keeps_code ? 1 : 0);
        statement.exec();
    }
}

} // namespace

void add_planned_sheet(Database& database, std::int64_t batch, const PlannedSheet& sheet) {
    SQLite::Statement statement(
        database.sql(), "INSERT INTO batch_sheet (batch_id, material_id, source_id, plan, width, "
                        "height) VALUES (?, ?, ?, ?, ?, ?)");
    statement.bind(1, batch);
    statement.bind(2, sheet.material_id);
    statement.bind(3, sheet.source_id);
    statement.bind(4, sheet.plan);
    statement.bind(5, sheet.size.width);
    statement.bind(6, sheet.size.height);
    statement.exec();
    const std::int64_t id = database.sql().getLastInsertRowid();
    add_pieces(database, id, sheet.pieces);
    add_remnants(database, id, sheet.remnants);
}

void add_planned_take(Database& database, std::int64_t batch, const PlannedTake& take) {
    SQLite::Statement statement(
        database.sql(),
        "INSERT INTO batch_take (batch_id, lot_id, material_id, quantity) VALUES (?, ?, ?, ?)");
    statement.bind(1, batch);
    statement.bind(2, take.lot_id);
    statement.bind(3, take.material_id);
    statement.bind(4, take.quantity);
    statement.exec();
}

std::vector<PlannedSheet> planned_sheets(Database& database, std::int64_t batch) {
    std::vector<PlannedSheet> sheets;
    std::map<std::int64_t, std::size_t> at;
    SQLite::Statement query(database.sql(),
                            "SELECT id, material_id, source_id, plan, width, height "
                            "FROM batch_sheet WHERE batch_id = ? ORDER BY id");
    query.bind(1, batch);
    while (query.executeStep()) {
        PlannedSheet sheet;
        sheet.id = query.getColumn(0).getInt64();
        sheet.material_id = query.getColumn(1).getInt64();
        sheet.source_id = query.getColumn(2).getInt64();
        sheet.plan = query.getColumn(3).getInt64();
        sheet.size = {query.getColumn(4).getInt64(), query.getColumn(5).getInt64()};
        at[sheet.id] = sheets.size();
        sheets.push_back(sheet);
    }
    SQLite::Statement pieces(
        database.sql(), "SELECT sheet_id, run, part, x, y, batch_piece.width, "
                        "batch_piece.height FROM batch_sheet JOIN batch_piece "
                        "ON sheet_id = batch_sheet.id WHERE batch_id = ? ORDER BY sheet_id, seq");
    pieces.bind(1, batch);
    while (pieces.executeStep())
        sheets[at[pieces.getColumn(0).getInt64()]].pieces.push_back(
            {pieces.getColumn(1).getInt64(), pieces.getColumn(2).getString(),
             place_from(pieces, 3)});
    SQLite::Statement remnants(
        database.sql(), "SELECT sheet_id, x, y, batch_remnant.width, batch_remnant.height, "
                        "keeps_code FROM batch_sheet JOIN batch_remnant "
                        "ON sheet_id = batch_sheet.id WHERE batch_id = ? ORDER BY sheet_id, seq");
    remnants.bind(1, batch);
    while (remnants.executeStep())
        sheets[at[remnants.getColumn(0).getInt64()]].remnants.push_back(
            {place_from(remnants, 1), remnants.getColumn(5).getInt() == 1});
    return sheets;
}

std::vector<PlannedTake> planned_takes(Database& database, std::int64_t batch) {
    std::vector<PlannedTake> takes;
    SQLite::Statement query(database.sql(), "SELECT lot_id, material_id, quantity FROM batch_take "
                                            "WHERE batch_id = ? ORDER BY lot_id");
    query.bind(1, batch);
    while (query.executeStep())
        takes.push_back({query.getColumn(0).getInt64(), query.getColumn(1).getInt64(),
                         query.getColumn(2).getInt64()});
    return takes;
}

std::map<std::int64_t, std::int64_t> reserved(Database& database, std::int64_t except) {
    std::map<std::int64_t, std::int64_t> quantities;
    // The index of open batches is found by its own condition only, so it stands beside ours.
    SQLite::Statement query(
        database.sql(),
        "SELECT source_id, sum(width * height) FROM batch JOIN batch_sheet ON batch_id = batch.id "
        "WHERE status IN ('planned', 'cut') AND status = 'planned' AND batch.id <> ?1 GROUP BY "
        "source_id "
        "UNION ALL SELECT lot_id, sum(quantity) FROM batch JOIN batch_take ON batch_id = batch.id "
        "WHERE status IN ('planned', 'cut') AND status = 'planned' AND batch.id <> ?1 GROUP BY "
        "lot_id");
    query.bind(1, except);
    while (query.executeStep())
        quantities[query.getColumn(0).getInt64()] += query.getColumn(1).getInt64();
    return quantities;
}

std::map<std::int64_t, std::int64_t> units_reserved(Database& database) {
    std::map<std::int64_t, std::int64_t> units;
    SQLite::Statement query(
        database.sql(), "SELECT batch_sheet.material_id, count(*) FROM batch JOIN batch_sheet "
                        "ON batch_id = batch.id JOIN lot ON lot.id = source_id "
                        "WHERE status IN ('planned', 'cut') AND status = 'planned' GROUP BY 1 "
                        "UNION ALL SELECT material_id, sum(quantity) FROM batch JOIN batch_take "
                        "ON batch_id = batch.id WHERE status IN ('planned', 'cut') AND status = "
                        "'planned' GROUP BY 1");
    while (query.executeStep())
        units[query.getColumn(0).getInt64()] += query.getColumn(1).getInt64();
    return units;
}

std::vector<std::int64_t> batches_reserving(Database& database, std::int64_t holder) {
    std::vector<std::int64_t> numbers;
    SQLite::Statement query(
        database.sql(), "SELECT number FROM batch WHERE status = 'planned' AND id IN "
                        "(SELECT batch_id FROM batch_sheet WHERE source_id = ?1 "
                        "UNION SELECT batch_id FROM batch_take WHERE lot_id = ?1) ORDER BY number");
    query.bind(1, holder);
    while (query.executeStep()) numbers.push_back(query.getColumn(0).getInt64());
    return numbers;
}

void add_cut_sheet(Database& database, const CutSheet& sheet) {
    SQLite::Statement statement(
        database.sql(),
        "INSERT INTO cut_sheet (posting_id, batch_id, planned_id, source_id, width, "
        "height, cost, pieces, kept, kept_value, waste) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
    statement.bind(1, sheet.posting_id);
    statement.bind(2, sheet.batch_id);
    if (sheet.planned_id != 0) statement.bind(3, sheet.planned_id);
    statement.bind(4, sheet.source_id);
    statement.bind(5, sheet.size.width);
    statement.bind(6, sheet.size.height);
    statement.bind(7, sheet.cost.minor());
    statement.bind(8, sheet.pieces);
    statement.bind(9, sheet.kept);
    statement.bind(10, sheet.kept_value.minor());
    statement.bind(11, sheet.waste);
    statement.exec();
}

std::vector<CutSheet> cut_sheets(Database& database, std::int64_t posting) {
    std::vector<CutSheet> sheets;
    SQLite::Statement query(database.sql(),
                            "SELECT id, batch_id, ifnull(planned_id, 0), source_id, width, height, "
                            "cost, pieces, kept, kept_value, waste FROM cut_sheet "
                            "WHERE posting_id = ? ORDER BY id");
    query.bind(1, posting);
    while (query.executeStep()) {
        CutSheet sheet;
        sheet.posting_id = posting;
        sheet.id = query.getColumn(0).getInt64();
        sheet.batch_id = query.getColumn(1).getInt64();
        sheet.planned_id = query.getColumn(2).getInt64();
        sheet.source_id = query.getColumn(3).getInt64();
        sheet.size = {query.getColumn(4).getInt64(), query.getColumn(5).getInt64()};
        sheet.cost = base::Money::of_minor(query.getColumn(6).getInt64());
        sheet.pieces = query.getColumn(7).getInt64();
        sheet.kept = query.getColumn(8).getInt64();
        sheet.kept_value = base::Money::of_minor(query.getColumn(9).getInt64());
        sheet.waste = query.getColumn(10).getInt64();
        sheets.push_back(sheet);
    }
    return sheets;
}

} // namespace barrow::store
