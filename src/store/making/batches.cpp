#include "store/making/batches.hpp"

#include "base/error.hpp"
#include "store/file/rows.hpp"
#include "store/ledger/ledger.hpp"

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

/// A number and its divisor, in two columns.
base::Rational fraction_from(Query& row) {
    const std::int64_t number = row.number();
    return base::Rational::of(number, row.number());
}

BatchStatus read_status(const std::string& text) {
    for (const NamedStatus& named : statuses)
        if (named.name == text) return named.status;
    throw base::broken("a batch of unknown status " + text);
}

void add_changes(Database& database, std::int64_t batch, std::int64_t run, const char* what,
                 const std::map<std::string, std::string>& changes) {
    for (const auto& [name, value] : changes) {
        execute(
            database,
            "INSERT INTO batch_change (batch_id, run, what, name, value) VALUES (?, ?, ?, ?, ?)",
            batch, run, what, name, value);
    }
}

void add_run(Database& database, std::int64_t batch, std::int64_t number, const BatchRun& run) {
    execute(database,
            "INSERT INTO batch_run (batch_id, run, design_text_id, journals, minutes, "
            "materials, labour, overheads, code, name, minutes_over) "
            "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            batch, number, run.design_text_id, run.journals, run.minutes.number(), run.materials,
            run.labour, run.overheads, run.code, run.name, run.minutes.divisor());
    add_changes(database, batch, number, "set", run.set);
    add_changes(database, batch, number, "use", run.use);
}

std::vector<BatchRun> runs_of(Database& database, std::int64_t batch) {
    std::vector<BatchRun> runs;
    Query query(database,
                "SELECT design_text_id, journals, minutes, minutes_over, materials, labour, "
                "overheads, code, name FROM batch_run WHERE batch_id = ? ORDER BY run",
                batch);
    while (query.next()) {
        BatchRun run;
        run.design_text_id = query.number();
        run.journals = query.number();
        run.minutes = fraction_from(query);
        run.materials = query.money();
        run.labour = query.money();
        run.overheads = query.money();
        run.code = query.text();
        run.name = query.text();
        runs.push_back(run);
    }
    Query changes(database, "SELECT run, what, name, value FROM batch_change WHERE batch_id = ?",
                  batch);
    while (changes.next()) {
        BatchRun& run = runs.at(static_cast<std::size_t>(changes.number()));
        auto& map = changes.text() == "set" ? run.set : run.use;
        map.insert({changes.text(), changes.text()});
    }
    return runs;
}

Batch batch_from(Query& row) {
    Batch batch;
    batch.id = row.number();
    batch.number = row.number();
    batch.status = read_status(row.text());
    return batch;
}

std::optional<Batch> one_batch(Database& database, const char* where, std::int64_t value) {
    Query query(database, std::string("SELECT id, number, status FROM batch WHERE ") + where,
                value);
    if (!query.next()) return std::nullopt;
    Batch batch = batch_from(query);
    batch.runs = runs_of(database, batch.id);
    return batch;
}

void set_status(Database& database, std::int64_t batch, BatchStatus status) {
    execute(database, "UPDATE batch SET status = ? WHERE id = ?", name_of(status), batch);
}

} // namespace

std::string_view name_of(BatchStatus status) {
    for (const NamedStatus& named : statuses)
        if (named.status == status) return named.name;
    throw base::broken("a status of a batch without a name");
}

Batch add_batch(Database& database, Batch batch) {
    batch.id = add_holder(database, "batch");
    batch.number = number_of(database, "SELECT ifnull(max(number), 0) + 1 FROM batch");
    execute(database, "INSERT INTO batch (id, number, status) VALUES (?, ?, 'undone')", batch.id,
            batch.number);
    for (std::size_t i = 0; i < batch.runs.size(); ++i)
        add_run(database, batch.id, static_cast<std::int64_t>(i), batch.runs[i]);
    return batch;
}

void add_batch_part(Database& database, std::int64_t batch, std::int64_t seq,
                    const BatchPart& part) {
    execute(database,
            "INSERT INTO batch_part (batch_id, run, seq, part, material_id, quantity, "
            "cost, slot) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
            batch, part.run, seq, part.part, part.material_id, part.quantity, part.cost, part.slot);
}

void add_batch_paper(Database& database, std::int64_t batch, const BatchPaper& paper) {
    execute(database,
            "INSERT INTO batch_paper (batch_id, run, first, last, slot, "
            "material_id) VALUES (?, ?, ?, ?, ?, ?)",
            batch, paper.run, paper.first, paper.last, paper.slot, paper.material_id);
}

void add_batch_event(Database& database, std::int64_t batch, const BatchEvent& event) {
    execute(database, "INSERT INTO batch_event (batch_id, posting_id, status) VALUES (?, ?, ?)",
            batch, event.posting_id, name_of(event.status));
    set_status(database, batch, event.status);
}

BatchEvent first_event(Database& database, std::int64_t batch) {
    Query query(database,
                "SELECT posting_id, status FROM batch_event "
                "WHERE batch_id = ? ORDER BY id LIMIT 1",
                batch);
    if (!query.next()) throw base::broken("a batch that nothing ever happened to");
    return {query.number(), read_status(query.text())};
}

std::vector<BatchEvent> standing_events(Database& database, std::int64_t batch) {
    std::vector<BatchEvent> events;
    Query query(database,
                "SELECT posting_id, status FROM batch_event "
                "WHERE batch_id = ? ORDER BY id",
                batch);
    while (query.next()) {
        const std::int64_t posting = query.number();
        if (stands(database, posting)) events.push_back({posting, read_status(query.text())});
    }
    return events;
}

void refresh_batches_of(Database& database, std::int64_t posting) {
    Query query(database, "SELECT batch_id FROM batch_event WHERE posting_id = ?",
                origin_of(database, posting));
    while (query.next()) {
        const std::int64_t batch = query.number();
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
    Query query(database, "SELECT id, number, status FROM batch ORDER BY number DESC");
    while (query.next()) batches.push_back(batch_from(query));
    return batches;
}

std::vector<Batch> batches_under_way(Database& database) {
    std::vector<Batch> batches;
    Query query(database, "SELECT id, number, status FROM batch WHERE status IN "
                          "('planned', 'cut') ORDER BY number DESC");
    while (query.next()) batches.push_back(batch_from(query));
    return batches;
}

std::vector<BatchPart> parts_of(Database& database, std::int64_t batch) {
    std::vector<BatchPart> parts;
    Query query(database,
                "SELECT run, part, material_id, quantity, cost, slot "
                "FROM batch_part WHERE batch_id = ? ORDER BY run, seq",
                batch);
    while (query.next())
        parts.push_back({query.number(), query.text(), query.number(), query.number(),
                         query.money(), query.text()});
    return parts;
}

std::vector<BatchPaper> papers_of(Database& database, std::int64_t batch) {
    std::vector<BatchPaper> papers;
    Query query(database,
                "SELECT run, first, last, slot, material_id, code, name "
                "FROM batch_paper JOIN material ON material.id = material_id "
                "WHERE batch_id = ? ORDER BY run, first, "
                "ifnull((SELECT min(seq) FROM batch_part p "
                "WHERE p.batch_id = batch_paper.batch_id "
                "AND p.run = batch_paper.run AND p.slot = batch_paper.slot), 1000000), slot",
                batch);
    while (query.next())
        papers.push_back({query.number(), query.number(), query.number(), query.text(),
                          query.number(), query.text(), query.text()});
    return papers;
}

} // namespace barrow::store
