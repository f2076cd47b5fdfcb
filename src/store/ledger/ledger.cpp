#include "store/ledger/ledger.hpp"

#include "store/file/kept.hpp"
#include "store/ledger/quarters.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

namespace barrow::store {
namespace {

constexpr const char* posting_columns =
    "SELECT id, kind, made_on, recorded_at, who, note, reverses FROM posting ";

Posting posting_from(SQLite::Statement& row) {
    Posting posting;
    posting.id = row.getColumn(0).getInt64();
    posting.kind = row.getColumn(1).getString();
    posting.made_on = base::read_date(row.getColumn(2).getString(), "posting made_on");
    posting.recorded_at = row.getColumn(3).getString();
    posting.who = row.getColumn(4).getString();
    posting.note = row.getColumn(5).getString();
    if (!row.getColumn(6).isNull()) posting.reverses = row.getColumn(6).getInt64();
    return posting;
}

std::optional<Posting> one_posting(Database& database, const char* where, std::int64_t id) {
    SQLite::Statement query(database.sql(), std::string(posting_columns) + where);
    query.bind(1, id);
    if (!query.executeStep()) return std::nullopt;
    return posting_from(query);
}

} // namespace

std::int64_t add_posting(Database& database, const Posting& posting) {
    close_quarters(database, posting.made_on);
    SQLite::Statement statement(
        database.sql(), "INSERT INTO posting (kind, made_on, recorded_at, who, note, reverses) "
                        "VALUES (?, ?, ?, ?, ?, ?)");
    statement.bind(1, posting.kind);
    statement.bind(2, base::to_text(posting.made_on));
    statement.bind(3, posting.recorded_at);
    statement.bind(4, posting.who);
    statement.bind(5, posting.note);
    if (posting.reverses) statement.bind(6, *posting.reverses);
    statement.exec();
    return database.sql().getLastInsertRowid();
}

std::optional<Posting> posting_by_id(Database& database, std::int64_t id) {
    return one_posting(database, "WHERE id = ?", id);
}

std::optional<Posting> reversal_of(Database& database, std::int64_t id) {
    return one_posting(database, "WHERE reverses = ?", id);
}

bool stands(Database& database, std::int64_t id) {
    bool standing = true;
    for (auto reversal = reversal_of(database, id); reversal;
         reversal = reversal_of(database, reversal->id))
        standing = !standing;
    return standing;
}

std::int64_t origin_of(Database& database, std::int64_t id) {
    for (auto posting = posting_by_id(database, id); posting && posting->reverses;
         posting = posting_by_id(database, id))
        id = *posting->reverses;
    return id;
}

std::vector<Posting> latest_postings(Database& database, std::int64_t most) {
    std::vector<Posting> postings;
    SQLite::Statement query(database.sql(),
                            std::string(posting_columns) + "ORDER BY id DESC LIMIT ?");
    query.bind(1, most);
    while (query.executeStep()) postings.push_back(posting_from(query));
    return postings;
}

std::int64_t add_holder(Database& database, std::string_view kind) {
    const Kept statement(database, "INSERT INTO holder (kind) VALUES (?)");
    statement->bind(1, std::string(kind));
    statement->exec();
    return database.sql().getLastInsertRowid();
}

std::string kind_of_holder(Database& database, std::int64_t id) {
    const Kept query(database, "SELECT kind FROM holder WHERE id = ?");
    query->bind(1, id);
    return query->executeStep() ? query->getColumn(0).getString() : std::string();
}

MovementWriter::MovementWriter(Database& database, std::int64_t posting)
    : statement_(std::make_unique<SQLite::Statement>(
        database.sql(), "INSERT INTO movement (posting_id, kind, lot_id, from_holder, to_holder, "
                        "quantity, value) VALUES (?, ?, ?, ?, ?, ?, ?)")),
      posting_(posting) {}

MovementWriter::~MovementWriter() = default;

void MovementWriter::move(const Movement& movement) {
    if (movement.quantity == 0 && movement.value.is_zero()) return;
    statement_->reset();
    statement_->clearBindings();
    statement_->bind(1, posting_);
    statement_->bind(2, movement.kind);
    if (movement.lot) statement_->bind(3, *movement.lot);
    statement_->bind(4, movement.from);
    statement_->bind(5, movement.to);
    statement_->bind(6, movement.quantity);
    statement_->bind(7, movement.value.minor());
    statement_->exec();
}

std::vector<Movement> movements_of(Database& database, std::int64_t posting) {
    std::vector<Movement> movements;
    SQLite::Statement query(database.sql(),
                            "SELECT id, kind, lot_id, from_holder, to_holder, quantity, value "
                            "FROM movement WHERE posting_id = ? ORDER BY id");
    query.bind(1, posting);
    while (query.executeStep()) {
        Movement movement;
        movement.id = query.getColumn(0).getInt64();
        movement.posting_id = posting;
        movement.kind = query.getColumn(1).getString();
        if (!query.getColumn(2).isNull()) movement.lot = query.getColumn(2).getInt64();
        movement.from = query.getColumn(3).getInt64();
        movement.to = query.getColumn(4).getInt64();
        movement.quantity = query.getColumn(5).getInt64();
        movement.value = base::Money::of_minor(query.getColumn(6).getInt64());
        movements.push_back(movement);
    }
    return movements;
}

std::vector<Balance> balances_of(Database& database, std::int64_t holder) {
    std::vector<Balance> balances;
    const Kept query(database, "SELECT lot_id, quantity, value FROM balance "
                               "WHERE holder_id = ? ORDER BY lot_id");
    query->bind(1, holder);
    while (query->executeStep())
        balances.push_back({holder, query->getColumn(0).getInt64(), query->getColumn(1).getInt64(),
                            base::Money::of_minor(query->getColumn(2).getInt64())});
    return balances;
}

Balance balance_of(Database& database, std::int64_t holder, std::int64_t lot) {
    SQLite::Statement query(database.sql(), "SELECT quantity, value FROM balance "
                                            "WHERE holder_id = ? AND lot_id = ?");
    query.bind(1, holder);
    query.bind(2, lot);
    if (!query.executeStep()) return {holder, lot, 0, {}};
    return {holder, lot, query.getColumn(0).getInt64(),
            base::Money::of_minor(query.getColumn(1).getInt64())};
}

std::map<std::string, base::Money> value_by_kind(Database& database) {
    std::map<std::string, base::Money> values;
    SQLite::Statement query(database.sql(), "SELECT kind, value FROM kind_value");
    while (query.executeStep())
        values[query.getColumn(0).getString()] =
            base::Money::of_minor(query.getColumn(1).getInt64());
    return values;
}

} // namespace barrow::store
