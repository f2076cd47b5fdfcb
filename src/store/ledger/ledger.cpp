#include "store/ledger/ledger.hpp"

#include "store/file/rows.hpp"
#include "store/ledger/quarters.hpp"

namespace barrow::store {
namespace {

constexpr const char* posting_columns =
    "SELECT id, kind, made_on, recorded_at, who, note, reverses FROM posting ";

Posting posting_from(Query& row) {
    Posting posting;
    posting.id = row.number();
    posting.kind = row.text();
    posting.made_on = row.date("posting made_on");
    posting.recorded_at = row.text();
    posting.who = row.text();
    posting.note = row.text();
    posting.reverses = row.maybe_number();
    return posting;
}

std::optional<Posting> one_posting(Database& database, const char* where, std::int64_t id) {
    Query query(database, std::string(posting_columns) + where, id);
    if (!query.next()) return std::nullopt;
    return posting_from(query);
}

} // namespace

std::int64_t add_posting(Database& database, const Posting& posting) {
    close_quarters(database, posting.made_on);
    return insert(database,
                  "INSERT INTO posting (kind, made_on, recorded_at, who, note, reverses) "
                  "VALUES (?, ?, ?, ?, ?, ?)",
                  posting.kind, posting.made_on, posting.recorded_at, posting.who, posting.note,
                  posting.reverses);
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
    Query query(database, std::string(posting_columns) + "ORDER BY id DESC LIMIT ?", most);
    while (query.next()) postings.push_back(posting_from(query));
    return postings;
}

std::int64_t add_holder(Database& database, std::string_view kind) {
    return insert(database, "INSERT INTO holder (kind) VALUES (?)", kind);
}

std::string kind_of_holder(Database& database, std::int64_t id) {
    Query query(database, "SELECT kind FROM holder WHERE id = ?", id);
    return query.next() ? query.text() : std::string();
}

void MovementWriter::move(const Movement& movement) {
    if (movement.quantity == 0 && movement.value.is_zero()) return;
    execute(database_,
            "INSERT INTO movement (posting_id, kind, lot_id, from_holder, to_holder, quantity, "
            "value) VALUES (?, ?, ?, ?, ?, ?, ?)",
            posting_, movement.kind, movement.lot, movement.from, movement.to, movement.quantity,
            movement.value);
}

std::vector<Movement> movements_of(Database& database, std::int64_t posting) {
    std::vector<Movement> movements;
    Query query(database,
                "SELECT id, kind, lot_id, from_holder, to_holder, quantity, value "
                "FROM movement WHERE posting_id = ? ORDER BY id",
                posting);
    while (query.next()) {
        Movement movement;
        movement.id = query.number();
        movement.posting_id = posting;
        movement.kind = query.text();
        movement.lot = query.maybe_number();
        movement.from = query.number();
        movement.to = query.number();
        movement.quantity = query.number();
        movement.value = query.money();
        movements.push_back(movement);
    }
    return movements;
}

std::vector<Balance> balances_of(Database& database, std::int64_t holder) {
    std::vector<Balance> balances;
    Query query(database,
                "SELECT lot_id, quantity, value FROM balance "
                "WHERE holder_id = ? ORDER BY lot_id",
                holder);
    while (query.next())
        balances.push_back({holder, query.number(), query.number(), query.money()});
    return balances;
}

Balance balance_of(Database& database, std::int64_t holder, std::int64_t lot) {
    Query query(database,
                "SELECT quantity, value FROM balance "
                "WHERE holder_id = ? AND lot_id = ?",
                holder, lot);
    if (!query.next()) return {holder, lot, 0, {}};
    return {holder, lot, query.number(), query.money()};
}

std::map<std::string, base::Money> value_by_kind(Database& database) {
    std::map<std::string, base::Money> values;
    Query query(database, "SELECT kind, value FROM kind_value");
    while (query.next()) values.insert({query.text(), query.money()});
    return values;
}

} // namespace barrow::store
