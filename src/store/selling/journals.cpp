#include "store/selling/journals.hpp"

#include "store/file/kept.hpp"
#include "store/ledger/ledger.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

namespace barrow::store {
namespace {

constexpr const char* journal_columns =
    "SELECT journal.id, journal.posting_id, serial, journal.batch_id, journal.run, "
    "journal.materials, journal.labour, journal.overheads, condition, place, price, journal.note";

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
    journal.second = row.getColumn(8).getString() == "second";
    journal.place = row.getColumn(9).getString();
    if (!row.getColumn(10).isNull())
        journal.price = base::Money::of_minor(row.getColumn(10).getInt64());
    journal.note = row.getColumn(11).getString();
    return journal;
}

void bind_price(SQLite::Statement& statement, int at, const Journal& journal) {
    journal.price ? statement.bind(at, journal.price->minor()) : statement.bind(at);
}

} // namespace

void add_finished_run(Database& database, const FinishedRun& run) {
    SQLite::Statement statement(
        database.sql(), "INSERT INTO finished_run (posting_id, batch_id, run, journals, minutes, "
                        "materials, labour, overheads) VALUES (?, ?, ?, ?, ?, ?, ?, ?)");
    statement.bind(1, run.posting_id);
    statement.bind(2, run.batch_id);
    statement.bind(3, run.run);
    statement.bind(4, run.journals);
    statement.bind(5, run.minutes);
    statement.bind(6, run.materials.minor());
    statement.bind(7, run.labour.minor());
    statement.bind(8, run.overheads.minor());
    statement.exec();
}

std::vector<FinishedRun> finished_runs(Database& database, std::int64_t posting) {
    std::vector<FinishedRun> runs;
    SQLite::Statement query(database.sql(),
                            "SELECT batch_id, run, journals, minutes, materials, labour, overheads "
                            "FROM finished_run WHERE posting_id = ? ORDER BY run");
    query.bind(1, posting);
    while (query.executeStep())
        runs.push_back({posting, query.getColumn(0).getInt64(), query.getColumn(1).getInt64(),
                        query.getColumn(2).getInt64(), query.getColumn(3).getInt64(),
                        base::Money::of_minor(query.getColumn(4).getInt64()),
                        base::Money::of_minor(query.getColumn(5).getInt64()),
                        base::Money::of_minor(query.getColumn(6).getInt64())});
    return runs;
}

std::int64_t add_journal(Database& database, const Journal& journal) {
    const std::int64_t id = add_holder(database, "journal");
    SQLite::Statement statement(
        database.sql(), "INSERT INTO journal (id, posting_id, serial, batch_id, run, materials, "
                        "labour, overheads, condition, place, price, note) "
                        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
    statement.bind(1, id);
    statement.bind(2, journal.posting_id);
    statement.bind(3, journal.serial);
    statement.bind(4, journal.batch_id);
    statement.bind(5, journal.run);
    statement.bind(6, journal.materials.minor());
    statement.bind(7, journal.labour.minor());
    statement.bind(8, journal.overheads.minor());
    statement.bind(9, journal.second ? "second" : "good");
    statement.bind(10, journal.place);
    bind_price(statement, 11, journal);
    statement.bind(12, journal.note);
    statement.exec();
    return id;
}

void add_journal_paper(Database& database, std::int64_t journal, const std::string& slot,
                       std::int64_t material_id) {
    SQLite::Statement statement(
        database.sql(),
        "INSERT INTO journal_paper (journal_id, slot, material_id) VALUES (?, ?, ?)");
    statement.bind(1, journal);
    statement.bind(2, slot);
    statement.bind(3, material_id);
    statement.exec();
}

std::vector<JournalPaper> papers_of_journal(Database& database, std::int64_t journal) {
    std::vector<JournalPaper> papers;
    const Kept query(database,
                     "SELECT jp.slot, code FROM journal_paper jp "
                     "JOIN material ON material.id = jp.material_id "
                     "JOIN journal ON journal.id = journal_id "
                     "WHERE journal_id = ? ORDER BY ifnull((SELECT min(seq) FROM batch_part p "
                     "WHERE p.batch_id = journal.batch_id AND p.run = journal.run "
                     "AND p.slot = jp.slot), 1000000), jp.slot");
    query->bind(1, journal);
    while (query->executeStep())
        papers.push_back({query->getColumn(0).getString(), query->getColumn(1).getString()});
    return papers;
}

std::int64_t journals_ever(Database& database, std::int64_t batch) {
    SQLite::Statement query(database.sql(), "SELECT count(*) FROM journal WHERE batch_id = ?");
    query.bind(1, batch);
    query.executeStep();
    return query.getColumn(0).getInt64();
}

std::optional<Journal> find_journal(Database& database, const std::string& serial) {
    SQLite::Statement query(database.sql(),
                            std::string(journal_columns) + " FROM journal WHERE serial = ?");
    query.bind(1, serial);
    if (!query.executeStep()) return std::nullopt;
    return journal_from(query);
}

void update_journal(Database& database, const Journal& journal) {
    SQLite::Statement statement(database.sql(),
                                "UPDATE journal SET condition = ?, place = ?, price = ?, note = ? "
                                "WHERE id = ?");
    statement.bind(1, journal.second ? "second" : "good");
    statement.bind(2, journal.place);
    bind_price(statement, 3, journal);
    statement.bind(4, journal.note);
    statement.bind(5, journal.id);
    statement.exec();
}

std::vector<Journal> journals_of_posting(Database& database, std::int64_t posting) {
    std::vector<Journal> journals;
    SQLite::Statement query(database.sql(), std::string(journal_columns)
                                                + " FROM journal WHERE posting_id = ? ORDER BY id");
    query.bind(1, posting);
    while (query.executeStep()) journals.push_back(journal_from(query));
    return journals;
}

std::vector<JournalOnHand> journals_on_hand(Database& database) {
    std::vector<JournalOnHand> journals;
    SQLite::Statement query(database.sql(),
                            std::string(journal_columns)
                                + ", batch_run.code, batch_run.name, batch.number FROM balance "
                                  "JOIN journal ON journal.id = holder_id "
                                  "JOIN batch ON batch.id = journal.batch_id "
                                  "JOIN batch_run ON batch_run.batch_id = journal.batch_id "
                                  "AND batch_run.run = journal.run "
                                  "WHERE balance.lot_id = 0 AND balance.quantity > 0 "
                                  "ORDER BY batch_run.code, journal.id");
    while (query.executeStep())
        journals.push_back({journal_from(query), query.getColumn(12).getString(),
                            query.getColumn(13).getString(), query.getColumn(14).getInt64()});
    for (JournalOnHand& one : journals)
        one.journal.papers = papers_of_journal(database, one.journal.id);
    return journals;
}

} // namespace barrow::store
