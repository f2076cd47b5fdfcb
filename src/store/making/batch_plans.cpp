#include "store/making/batch_plans.hpp"

#include "store/file/rows.hpp"

namespace barrow::store {
namespace {

Place place_from(Query& row) {
    return {row.number(), row.number(), row.number(), row.number()};
}

void add_pieces(Database& database, std::int64_t sheet, const std::vector<PlannedPiece>& pieces) {
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const auto& [run, part, place] = pieces[i];
        execute(database,
                "INSERT INTO batch_piece (sheet_id, seq, run, part, x, y, width, height) "
                "VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
                sheet, i, run, part, place.x, place.y, place.width, place.height);
    }
}

void add_remnants(Database& database, std::int64_t sheet,
                  const std::vector<PlannedRemnant>& remnants) {
    for (std::size_t i = 0; i < remnants.size(); ++i) {
        const auto& [place, keeps_code] = remnants[i];
        execute(database,
                "INSERT INTO batch_remnant (sheet_id, seq, x, y, width, height, keeps_code) "
                "VALUES (?, ?, ?, ?, ?, ?, ?)",
                sheet, i, place.x, place.y, place.width, place.height, keeps_code);
    }
}

} // namespace

void add_planned_sheet(Database& database, std::int64_t batch, const PlannedSheet& sheet) {
    const std::int64_t id = insert(
        database,
        "INSERT INTO batch_sheet (batch_id, material_id, source_id, plan, width, "
        "height) VALUES (?, ?, ?, ?, ?, ?)",
        batch, sheet.material_id, sheet.source_id, sheet.plan, sheet.size.width, sheet.size.height);
    add_pieces(database, id, sheet.pieces);
    add_remnants(database, id, sheet.remnants);
}

void add_planned_take(Database& database, std::int64_t batch, const PlannedTake& take) {
    execute(database,
            "INSERT INTO batch_take (batch_id, lot_id, material_id, quantity) VALUES (?, ?, ?, ?)",
            batch, take.lot_id, take.material_id, take.quantity);
}

std::vector<PlannedSheet> planned_sheets(Database& database, std::int64_t batch) {
    std::vector<PlannedSheet> sheets;
    std::map<std::int64_t, std::size_t> at;
    Query query(database,
                "SELECT id, material_id, source_id, plan, width, height "
                "FROM batch_sheet WHERE batch_id = ? ORDER BY id",
                batch);
    while (query.next()) {
        PlannedSheet sheet;
        sheet.id = query.number();
        sheet.material_id = query.number();
        sheet.source_id = query.number();
        sheet.plan = query.number();
        sheet.size = {query.number(), query.number()};
        at[sheet.id] = sheets.size();
        sheets.push_back(sheet);
    }
    Query pieces(database,
                 "SELECT sheet_id, run, part, x, y, batch_piece.width, "
                 "batch_piece.height FROM batch_sheet JOIN batch_piece "
                 "ON sheet_id = batch_sheet.id WHERE batch_id = ? ORDER BY sheet_id, seq",
                 batch);
    while (pieces.next())
        sheets[at[pieces.number()]].pieces.push_back(
            {pieces.number(), pieces.text(), place_from(pieces)});
    Query remnants(database,
                   "SELECT sheet_id, x, y, batch_remnant.width, batch_remnant.height, "
                   "keeps_code FROM batch_sheet JOIN batch_remnant "
                   "ON sheet_id = batch_sheet.id WHERE batch_id = ? ORDER BY sheet_id, seq",
                   batch);
    while (remnants.next())
        sheets[at[remnants.number()]].remnants.push_back({place_from(remnants), remnants.yes()});
    return sheets;
}

std::vector<PlannedTake> planned_takes(Database& database, std::int64_t batch) {
    std::vector<PlannedTake> takes;
    Query query(database,
                "SELECT lot_id, material_id, quantity FROM batch_take "
                "WHERE batch_id = ? ORDER BY lot_id",
                batch);
    while (query.next()) takes.push_back({query.number(), query.number(), query.number()});
    return takes;
}

std::map<std::int64_t, std::int64_t> reserved(Database& database, std::int64_t except) {
    std::map<std::int64_t, std::int64_t> quantities;
    // The index of open batches is found by its own condition only, so it stands beside ours.
    Query query(
        database,
        "SELECT source_id, sum(width * height) FROM batch JOIN batch_sheet ON batch_id = batch.id "
        "WHERE status IN ('planned', 'cut') AND status = 'planned' AND batch.id <> ?1 GROUP BY "
        "source_id "
        "UNION ALL SELECT lot_id, sum(quantity) FROM batch JOIN batch_take ON batch_id = batch.id "
        "WHERE status IN ('planned', 'cut') AND status = 'planned' AND batch.id <> ?1 GROUP BY "
        "lot_id",
        except);
    while (query.next()) {
        std::int64_t& quantity = quantities[query.number()];
        quantity += query.number();
    }
    return quantities;
}

std::map<std::int64_t, std::int64_t> units_reserved(Database& database) {
    std::map<std::int64_t, std::int64_t> units;
    Query query(database, "SELECT batch_sheet.material_id, count(*) FROM batch JOIN batch_sheet "
                          "ON batch_id = batch.id JOIN lot ON lot.id = source_id "
                          "WHERE status IN ('planned', 'cut') AND status = 'planned' GROUP BY 1 "
                          "UNION ALL SELECT material_id, sum(quantity) FROM batch JOIN batch_take "
                          "ON batch_id = batch.id WHERE status IN ('planned', 'cut') AND status = "
                          "'planned' GROUP BY 1");
    while (query.next()) {
        std::int64_t& of_material = units[query.number()];
        of_material += query.number();
    }
    return units;
}

std::vector<std::int64_t> batches_reserving(Database& database, std::int64_t holder) {
    std::vector<std::int64_t> numbers;
    Query query(database,
                "SELECT number FROM batch WHERE status = 'planned' AND id IN "
                "(SELECT batch_id FROM batch_sheet WHERE source_id = ?1 "
                "UNION SELECT batch_id FROM batch_take WHERE lot_id = ?1) ORDER BY number",
                holder);
    while (query.next()) numbers.push_back(query.number());
    return numbers;
}

void add_cut_sheet(Database& database, const CutSheet& sheet) {
    execute(database,
            "INSERT INTO cut_sheet (posting_id, batch_id, planned_id, source_id, width, "
            "height, cost, pieces, kept, kept_value, waste) "
            "VALUES (?, ?, nullif(?, 0), ?, ?, ?, ?, ?, ?, ?, ?)",
            sheet.posting_id, sheet.batch_id, sheet.planned_id, sheet.source_id, sheet.size.width,
            sheet.size.height, sheet.cost, sheet.pieces, sheet.kept, sheet.kept_value, sheet.waste);
}

std::vector<CutSheet> cut_sheets(Database& database, std::int64_t posting) {
    std::vector<CutSheet> sheets;
    Query query(database,
                "SELECT id, batch_id, ifnull(planned_id, 0), source_id, width, height, "
                "cost, pieces, kept, kept_value, waste FROM cut_sheet "
                "WHERE posting_id = ? ORDER BY id",
                posting);
    while (query.next()) {
        CutSheet sheet;
        sheet.posting_id = posting;
        sheet.id = query.number();
        sheet.batch_id = query.number();
        sheet.planned_id = query.number();
        sheet.source_id = query.number();
        sheet.size = {query.number(), query.number()};
        sheet.cost = query.money();
        sheet.pieces = query.number();
        sheet.kept = query.number();
        sheet.kept_value = query.money();
        sheet.waste = query.number();
        sheets.push_back(sheet);
    }
    return sheets;
}

} // namespace barrow::store
