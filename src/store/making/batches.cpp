#include "store/making/batches.hpp"

#include "base/error.hpp"
#include "store/ledger/ledger.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

#include <array>

namespace barrow::store {
namespace {

struct NamedStatus {
    BatchStatus status;
    std::string_view name;
};

constexpr std::array<NamedStatus, 5> statuses = {{{BatchStatus::undone, "undone"},
                                                  {BatchStatus::planned, "planned"},
                                                  {BatchStatus::cut, "cut"},
                                                  {BatchStatus::finished, "finished"},
                                                  {BatchStatus::abandoned, "abandoned"}}};

BatchStatus read_status(const std::string& text) {
    for (const NamedStatus& named : statuses)
        if (named.name == text) return named.status;
    throw base::broken("a batch of unknown status " + text);
}

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
        database.sql(), "INSERT INTO batch_run (batch_id, run, design_text_id, journals, minutes, "
                        "materials, labour, overheads, code, name, minutes_over) "
                        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
    statement.bind(1, batch);
    statement.bind(2, number);
    statement.bind(3, run.design_text_id);
    statement.bind(4, run.journals);
    statement.bind(5, run.minutes.number());
    statement.bind(6, run.materials.minor());
    statement.bind(7, run.labour.minor());
    statement.bind(8, run.overheads.minor());
    statement.bind(9, run.code);
    statement.bind(10, run.name);
    statement.bind(11, run.minutes.divisor());
    statement.exec();
    add_changes(database, batch, number, "set", run.set);
    add_changes(database, batch, number, "use", run.use);
}

std::vector<BatchRun> runs_of(Database& database, std::int64_t batch) {
    std::vector<BatchRun> runs;
    SQLite::Statement query(
        database.sql(),
        "SELECT design_text_id, journals, minutes, materials, labour, "
        "overheads, code, name, minutes_over FROM batch_run WHERE batch_id = ? ORDER BY run");
    query.bind(1, batch);
    while (query.executeStep()) {
        BatchRun run;
        run.design_text_id = query.getColumn(0).getInt64();
        run.journals = query.getColumn(1).getInt64();
        run.minutes =
            base::Rational::of(query.getColumn(2).getInt64(), query.getColumn(8).getInt64());
        run.materials = base::Money::of_minor(query.getColumn(3).getInt64());
        run.labour = base::Money::of_minor(query.getColumn(4).getInt64());
        run.overheads = base::Money::of_minor(query.getColumn(5).getInt64());
        run.code = query.getColumn(6).getString();
        run.name = query.getColumn(7).getString();
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

Batch batch_from(SQLite::Statement& row) {
    Batch batch;
    batch.id = row.getColumn(0).getInt64();
    batch.number = row.getColumn(1).getInt64();
    batch.status = read_status(row.getColumn(2).getString());
    return batch;
}

std::optional<Batch> one_batch(Database& database, const char* where, std::int64_t value) {
    SQLite::Statement query(database.sql(),
                            std::string("SELECT id, number, status FROM batch WHERE ") + where);
    query.bind(1, value);
    if (!query.executeStep()) return std::nullopt;
    Batch batch = batch_from(query);
    batch.runs = runs_of(database, batch.id);
    return batch;
}

void set_status(Database& database, std::int64_t batch, BatchStatus status) {
    SQLite::Statement statement(database.sql(), "UPDATE batch SET status = ? WHERE id = ?");
    statement.bind(1, std::string(name_of(status)));
    statement.bind(2, batch);
    statement.exec();
}

} // namespace

std::string_view name_of(BatchStatus status) {
    for (const NamedStatus& named : statuses)
        if (named.status == status) return named.name;
    throw base::broken("a status of a batch without a name");
}

Batch add_batch(Database& database, Batch batch) {
    batch.id = add_holder(database, "batch");
    batch.number =
        database.sql().execAndGet("SELECT ifnull(max(number), 0) + 1 FROM batch").getInt64();
    SQLite::Statement statement(database.sql(),
                                "INSERT INTO batch (id, number, status) VALUES (?, ?, 'undone')");
    statement.bind(1, batch.id);
    statement.bind(2, batch.number);
    statement.exec();
    for (std::size_t i = 0; i < batch.runs.size(); ++i)
        add_run(database, batch.id, static_cast<std::int64_t>(i), batch.runs[i]);
    return batch;
}

void add_batch_part(Database& database, std::int64_t batch, std::int64_t seq,
                    const BatchPart& part) {
    SQLite::Statement statement(
        database.sql(), "INSERT INTO batch_part (batch_id, run, seq, part, material_id, quantity, "
                        "cost, slot) VALUES (?, ?, ?, ?, ?, ?, ?, ?)");
    statement.bind(1, batch);
    statement.bind(2, part.run);
    statement.bind(3, seq);
    statement.bind(4, part.part);
    statement.bind(5, part.material_id);
    statement.bind(6, part.quantity);
    statement.bind(7, part.cost.minor());
    statement.bind(8, part.slot);
    statement.exec();
}

void add_batch_paper(Database& database, std::int64_t batch, const BatchPaper& paper) {
    SQLite::Statement statement(database.sql(),
                                "INSERT INTO batch_paper (batch_id, run, first, last, slot, "
                                "material_id) VALUES (?, ?, ?, ?, ?, ?)");
    statement.bind(1, batch);
    statement.bind(2, paper.run);
    statement.bind(3, paper.first);
    statement.bind(4, paper.last);
    statement.bind(5, paper.slot);
    statement.bind(6, paper.material_id);
    statement.exec();
}

void add_batch_event(Database& database, std::int64_t batch, const BatchEvent& event) {
    SQLite::Statement statement(
        database.sql(), "INSERT INTO batch_event (batch_id, posting_id, status) VALUES (?, ?, ?)");
    statement.bind(1, batch);
    statement.bind(2, event.posting_id);
    statement.bind(3, std::string(name_of(event.status)));
    statement.exec();
    set_status(database, batch, event.status);
}

BatchEvent first_event(Database& database, std::int64_t batch) {
    SQLite::Statement query(database.sql(), "SELECT posting_id, status FROM batch_event "
                                            "WHERE batch_id = ? ORDER BY id LIMIT 1");
    query.bind(1, batch);
    if (!query.executeStep()) throw base::broken("a batch that nothing ever happened to");
    return {query.getColumn(0).getInt64(), read_status(query.getColumn(1).getString())};
}

std::vector<BatchEvent> standing_events(Database& database, std::int64_t batch) {
    std::vector<BatchEvent> events;
    SQLite::Statement query(database.sql(), "SELECT posting_id, status FROM batch_event "
                                            "WHERE batch_id = ? ORDER BY id");
    query.bind(1, batch);
    while (query.executeStep()) {
        const std::int64_t posting = query.getColumn(0).getInt64();
        if (stands(database, posting))
            events.push_back({posting, read_status(query.getColumn(1).getString())});
    }
    return events;
}

void refresh_batches_of(Database& database, std::int64_t posting) {
    SQLite::Statement query(database.sql(),
                            "SELECT batch_id FROM batch_event WHERE posting_id = ?");
    query.bind(1, origin_of(database, posting));
    while (query.executeStep()) {
        const std::int64_t batch = query.getColumn(0).getInt64();
        const auto events = standing_events(database, batch);
        set_status(database, batch, events.empty() ? BatchStatus::undone : events.back().status);
    }
}

std::optional<Batch> find_batch(Database& database, std::int64_t number) {
    return one_batch(database, "number = ?", number);
}

std::optional<Batch> batch_by_id(Database& database, std::int64_t id) {
    return one_batch(database, "id = ?", id);
}

std::optional<Batch> batch_of_event(Database& database, std::int64_t posting) {
    return one_batch(database, "id = (SELECT batch_id FROM batch_event WHERE posting_id = ?)",
                     posting);
}

std::vector<Batch> all_batches(Database& database) {
    std::vector<Batch> batches;
    SQLite::Statement query(database.sql(),
                            "SELECT id, number, status FROM batch ORDER BY number DESC");
    while (query.executeStep()) batches.push_back(batch_from(query));
    return batches;
}

std::vector<Batch> batches_under_way(Database& database) {
    std::vector<Batch> batches;
    SQLite::Statement query(database.sql(), "SELECT id, number, status FROM batch WHERE status IN "
                                            "('planned', 'cut') ORDER BY number DESC");
    while (query.executeStep()) batches.push_back(batch_from(query));
    return batches;
}

std::vector<BatchPart> parts_of(Database& database, std::int64_t batch) {
    std::vector<BatchPart> parts;
    SQLite::Statement query(database.sql(), "SELECT run, part, material_id, quantity, cost, slot "
                                            "FROM batch_part WHERE batch_id = ? ORDER BY run, seq");
    query.bind(1, batch);
    while (query.executeStep())
        parts.push_back({query.getColumn(0).getInt64(), query.getColumn(1).getString(),
                         query.getColumn(2).getInt64(), query.getColumn(3).getInt64(),
                         base::Money::of_minor(query.getColumn(4).getInt64()),
                         query.getColumn(5).getString()});
    return parts;
}

std::vector<BatchPaper> papers_of(Database& database, std::int64_t batch) {
    std::vector<BatchPaper> papers;
    SQLite::Statement query(
        database.sql(),
        "SELECT run, first, last, slot, material_id, code, name "
        "FROM batch_paper JOIN material ON material.id = material_id "
        "WHERE batch_id = ? ORDER BY run, first, "
        "ifnull((SELECT min(seq) FROM batch_part p "
        "WHERE p.batch_id = batch_paper.batch_id "
        "AND p.run = batch_paper.run AND p.slot = batch_paper.slot), 1000000), slot");
    query.bind(1, batch);
    while (query.executeStep())
        papers.push_back({query.getColumn(0).getInt64(), query.getColumn(1).getInt64(),
                          query.getColumn(2).getInt64(), query.getColumn(3).getString(),
                          query.getColumn(4).getInt64(), query.getColumn(5).getString(),
                          query.getColumn(6).getString()});
    return papers;
}

} // namespace barrow::store
