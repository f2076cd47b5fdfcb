#include "store/batches.hpp"

#include "store/ledger.hpp"

namespace barrow::store {
namespace {

void add_changes(Database& database, std::int64_t batch, std::int64_t run, const char* what,
                 const std::map<std::string, std::string>& changes) {
    for (const auto& [name, value] : changes) {
        SQLite::Statement statement(
            database.sql(),
            "INSERT INTO batch_change (batch_id, run, what, name, value) VALUES (?, ?, ?, ?, ?)");
        statement.bind(1, batch);
        statement.bind(2, run);
        statement.bind(3, what);
        statement.bind(4, name);
        statement.bind(5, value);
        statement.exec();
    }
}

void add_run(Database& database, std::int64_t batch, std::int64_t number, const BatchRun& run) {
    SQLite::Statement statement(
        database.sql(), "INSERT INTO batch_run (batch_id, run, design_text_id, journals, materials, "
                        "labour, overheads) VALUES (?, ?, ?, ?, ?, ?, ?)");
    statement.bind(1, batch);
    statement.bind(2, number);
    statement.bind(3, run.design_text_id);
    statement.bind(4, run.journals);
    statement.bind(5, run.materials.minor());
    statement.bind(6, run.labour.minor());
    statement.bind(7, run.overheads.minor());
    statement.exec();
    add_changes(database, batch, number, "set", run.set);
    add_changes(database, batch, number, "use", run.use);
}

void add_piece(SQLite::Statement& statement, std::int64_t sheet, std::int64_t seq,
               const BatchPiece& piece) {
    statement.reset();
    statement.bind(1, sheet);
    statement.bind(2, seq);
    statement.bind(3, piece.run);
    statement.bind(4, piece.part);
    statement.bind(5, piece.x);
    statement.bind(6, piece.y);
    statement.bind(7, piece.width);
    statement.bind(8, piece.height);
    statement.exec();
}

std::vector<BatchRun> runs_of(Database& database, std::int64_t batch) {
    std::vector<BatchRun> runs;
    SQLite::Statement query(database.sql(),
                            "SELECT design_text_id, journals, materials, labour, overheads "
                            "FROM batch_run WHERE batch_id = ? ORDER BY run");
    query.bind(1, batch);
    while (query.executeStep()) {
        BatchRun run;
        run.design_text_id = query.getColumn(0).getInt64();
        run.journals = query.getColumn(1).getInt64();
        run.materials = base::Money::of_minor(query.getColumn(2).getInt64());
        run.labour = base::Money::of_minor(query.getColumn(3).getInt64());
        run.overheads = base::Money::of_minor(query.getColumn(4).getInt64());
        runs.push_back(run);
    }
    SQLite::Statement changes(database.sql(),
                              "SELECT run, what, name, value FROM batch_change WHERE batch_id = ?");
    changes.bind(1, batch);
    while (changes.executeStep()) {
        BatchRun& run = runs.at(static_cast<std::size_t>(changes.getColumn(0).getInt64()));
        auto& map = changes.getColumn(1).getString() == "set" ? run.set : run.use;
        map[changes.getColumn(2).getString()] = changes.getColumn(3).getString();
    }
    return runs;
}

constexpr const char* journal_columns =
    "journal.id, journal.posting_id, serial, journal.batch_id, journal.run, journal.materials, "
    "journal.labour, journal.overheads, journal.note";

Journal journal_from(SQLite::Statement& row) {
    Journal journal;
    journal.id = row.getColumn(0).getInt64();
    journal.posting_id = row.getColumn(1).getInt64();
    journal.serial = row.getColumn(2).getString();
    journal.batch_id = row.getColumn(3).getInt64();
    journal.run = row.getColumn(4).getInt64();
    journal.materials = base::Money::of_minor(row.getColumn(5).getInt64());
    journal.labour = base::Money::of_minor(row.getColumn(6).getInt64());
    journal.overheads = base::Money::of_minor(row.getColumn(7).getInt64());
    journal.note = row.getColumn(8).getString();
    return journal;
}

} // namespace

Batch add_batch(Database& database, Batch batch) {
    batch.id = add_holder(database, "batch");
    batch.number =
        database.sql().execAndGet("SELECT ifnull(max(number), 0) + 1 FROM batch").getInt64();
    SQLite::Statement statement(database.sql(),
                                "INSERT INTO batch (id, posting_id, number) VALUES (?, ?, ?)");
    statement.bind(1, batch.id);
    statement.bind(2, batch.posting_id);
    statement.bind(3, batch.number);
    statement.exec();
    for (std::size_t i = 0; i < batch.runs.size(); ++i)
        add_run(database, batch.id, static_cast<std::int64_t>(i), batch.runs[i]);
    return batch;
}

std::int64_t add_batch_sheet(Database& database, std::int64_t batch, const BatchSheet& sheet,
                             const std::vector<BatchPiece>& pieces) {
    SQLite::Statement statement(
        database.sql(), "INSERT INTO batch_sheet (batch_id, source_id, plan, width, height, cost, "
                        "pieces, kept, waste) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)");
    statement.bind(1, batch);
    statement.bind(2, sheet.source_id);
    statement.bind(3, sheet.plan);
    statement.bind(4, sheet.size.width);
    statement.bind(5, sheet.size.height);
    statement.bind(6, sheet.cost.minor());
    statement.bind(7, sheet.pieces);
    statement.bind(8, sheet.kept);
    statement.bind(9, sheet.waste);
    statement.exec();
    const std::int64_t id = database.sql().getLastInsertRowid();
    SQLite::Statement piece(database.sql(),
                            "INSERT INTO batch_piece (sheet_id, seq, run, part, x, y, width, "
                            "height) VALUES (?, ?, ?, ?, ?, ?, ?, ?)");
    for (std::size_t i = 0; i < pieces.size(); ++i)
        add_piece(piece, id, static_cast<std::int64_t>(i), pieces[i]);
    return id;
}

std::int64_t add_journal(Database& database, const Journal& journal) {
    const std::int64_t id = add_holder(database, "journal");
    SQLite::Statement statement(
        database.sql(), "INSERT INTO journal (id, posting_id, serial, batch_id, run, materials, "
                        "labour, overheads, note) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)");
    statement.bind(1, id);
    statement.bind(2, journal.posting_id);
    statement.bind(3, journal.serial);
    statement.bind(4, journal.batch_id);
    statement.bind(5, journal.run);
    statement.bind(6, journal.materials.minor());
    statement.bind(7, journal.labour.minor());
    statement.bind(8, journal.overheads.minor());
    statement.bind(9, journal.note);
    statement.exec();
    return id;
}

std::optional<Batch> find_batch(Database& database, std::int64_t number) {
    SQLite::Statement query(database.sql(),
                            "SELECT id, posting_id, number FROM batch WHERE number = ?");
    query.bind(1, number);
    if (!query.executeStep()) return std::nullopt;
    Batch batch;
    batch.id = query.getColumn(0).getInt64();
    batch.posting_id = query.getColumn(1).getInt64();
    batch.number = query.getColumn(2).getInt64();
    batch.runs = runs_of(database, batch.id);
    return batch;
}

std::vector<BatchSheet> sheets_of(Database& database, std::int64_t batch) {
    std::vector<BatchSheet> sheets;
    SQLite::Statement query(database.sql(),
                            "SELECT id, source_id, plan, width, height, cost, pieces, kept, waste "
                            "FROM batch_sheet WHERE batch_id = ? ORDER BY id");
    query.bind(1, batch);
    while (query.executeStep()) {
        BatchSheet sheet;
        sheet.id = query.getColumn(0).getInt64();
        sheet.source_id = query.getColumn(1).getInt64();
        sheet.plan = query.getColumn(2).getInt64();
        sheet.size = {query.getColumn(3).getInt64(), query.getColumn(4).getInt64()};
        sheet.cost = base::Money::of_minor(query.getColumn(5).getInt64());
        sheet.pieces = query.getColumn(6).getInt64();
        sheet.kept = query.getColumn(7).getInt64();
        sheet.waste = query.getColumn(8).getInt64();
        sheets.push_back(sheet);
    }
    return sheets;
}

std::vector<Journal> journals_of(Database& database, std::int64_t batch) {
    std::vector<Journal> journals;
    SQLite::Statement query(database.sql(), std::string("SELECT ") + journal_columns
                                                + " FROM journal WHERE batch_id = ? ORDER BY id");
    query.bind(1, batch);
    while (query.executeStep()) journals.push_back(journal_from(query));
    return journals;
}

std::vector<JournalOnHand> journals_on_hand(Database& database) {
    std::vector<JournalOnHand> journals;
    SQLite::Statement query(
        database.sql(),
        std::string("SELECT ") + journal_columns
            + ", design.code, design.name, batch.number FROM balance "
              "JOIN journal ON journal.id = holder_id "
              "JOIN batch ON batch.id = journal.batch_id "
              "JOIN batch_run ON batch_run.batch_id = journal.batch_id "
              "AND batch_run.run = journal.run "
              "JOIN design_text ON design_text.id = design_text_id "
              "JOIN design ON design.id = design_id "
              "WHERE balance.lot_id = 0 AND balance.quantity > 0 ORDER BY design.code, serial");
    while (query.executeStep())
        journals.push_back({journal_from(query), query.getColumn(9).getString(),
                            query.getColumn(10).getString(), query.getColumn(11).getInt64()});
    return journals;
}

} // namespace barrow::store
