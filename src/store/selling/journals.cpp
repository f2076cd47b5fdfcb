#include "store/selling/journals.hpp"

#include "store/file/rows.hpp"
#include "store/ledger/ledger.hpp"

namespace barrow::store {
namespace {

constexpr const char* journal_columns =
    "SELECT journal.id, journal.posting_id, serial, journal.batch_id, journal.run, "
    "journal.materials, journal.labour, journal.overheads, condition, place, price, journal.note";

Journal journal_from(Query& row) {
    Journal journal;
    journal.id = row.number();
    journal.posting_id = row.number();
    journal.serial = row.text();
    journal.batch_id = row.number();
    journal.run = row.number();
    journal.materials = row.money();
    journal.labour = row.money();
    journal.overheads = row.money();
    journal.second = row.text() == "second";
    journal.place = row.text();
    journal.price = row.maybe_money();
    journal.note = row.text();
    return journal;
}

} // namespace

void add_finished_run(Database& database, const FinishedRun& run) {
    execute(database,
            "INSERT INTO finished_run (posting_id, batch_id, run, journals, minutes, "
            "materials, labour, overheads) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
            run.posting_id, run.batch_id, run.run, run.journals, run.minutes, run.materials,
            run.labour, run.overheads);
}

std::vector<FinishedRun> finished_runs(Database& database, std::int64_t posting) {
    std::vector<FinishedRun> runs;
    Query query(database,
                "SELECT batch_id, run, journals, minutes, materials, labour, overheads "
                "FROM finished_run WHERE posting_id = ? ORDER BY run",
                posting);
    while (query.next())
        runs.push_back({posting, query.number(), query.number(), query.number(), query.number(),
                        query.money(), query.money(), query.money()});
    return runs;
}

std::int64_t add_journal(Database& database, const Journal& journal) {
    const std::int64_t id = add_holder(database, "journal");
    execute(database,
            "INSERT INTO journal (id, posting_id, serial, batch_id, run, materials, labour, "
            "overheads, condition, place, price, note) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            id, journal.posting_id, journal.serial, journal.batch_id, journal.run,
            journal.materials, journal.labour, journal.overheads,
            journal.second ? "second" : "good", journal.place, journal.price, journal.note);
    return id;
}

void add_journal_paper(Database& database, std::int64_t journal, const std::string& slot,
                       std::int64_t material_id) {
    execute(database, "INSERT INTO journal_paper (journal_id, slot, material_id) VALUES (?, ?, ?)",
            journal, slot, material_id);
}

std::vector<JournalPaper> papers_of_journal(Database& database, std::int64_t journal) {
    std::vector<JournalPaper> papers;
    Query query(database,
                "SELECT jp.slot, code FROM journal_paper jp "
                "JOIN material ON material.id = jp.material_id "
                "JOIN journal ON journal.id = journal_id "
                "WHERE journal_id = ? ORDER BY ifnull((SELECT min(seq) FROM batch_part p "
                "WHERE p.batch_id = journal.batch_id AND p.run = journal.run "
                "AND p.slot = jp.slot), 1000000), jp.slot",
                journal);
    while (query.next()) papers.push_back({query.text(), query.text()});
    return papers;
}

std::int64_t journals_ever(Database& database, std::int64_t batch) {
    return number_of(database, "SELECT count(*) FROM journal WHERE batch_id = ?", batch);
}

std::optional<Journal> find_journal(Database& database, const std::string& serial) {
    Query query(database, std::string(journal_columns) + " FROM journal WHERE serial = ?", serial);
    if (!query.next()) return std::nullopt;
    return journal_from(query);
}

void update_journal(Database& database, const Journal& journal) {
    execute(
        database, "UPDATE journal SET condition = ?, place = ?, price = ?, note = ? WHERE id = ?",
        journal.second ? "second" : "good", journal.place, journal.price, journal.note, journal.id);
}

std::vector<Journal> journals_of_posting(Database& database, std::int64_t posting) {
    std::vector<Journal> journals;
    Query query(database,
                std::string(journal_columns) + " FROM journal WHERE posting_id = ? ORDER BY id",
                posting);
    while (query.next()) journals.push_back(journal_from(query));
    return journals;
}

std::vector<JournalOnHand> journals_on_hand(Database& database) {
    std::vector<JournalOnHand> journals;
    Query query(database, std::string(journal_columns)
                              + ", batch_run.code, batch_run.name, batch.number FROM balance "
                                "JOIN journal ON journal.id = holder_id "
                                "JOIN batch ON batch.id = journal.batch_id "
                                "JOIN batch_run ON batch_run.batch_id = journal.batch_id "
                                "AND batch_run.run = journal.run "
                                "WHERE balance.lot_id = 0 AND balance.quantity > 0 "
                                "ORDER BY batch_run.code, journal.id");
    while (query.next())
        journals.push_back({journal_from(query), query.text(), query.text(), query.number()});
    for (JournalOnHand& one : journals)
        one.journal.papers = papers_of_journal(database, one.journal.id);
    return journals;
}

} // namespace barrow::store
