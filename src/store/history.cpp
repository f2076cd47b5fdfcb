#include "store/history.hpp"

#include <algorithm>

namespace barrow::store {
namespace {

// The joins are crossed so that the movements are found first, by the index on what is asked for,
// and each then finds its entry, holders and lot by their keys.
constexpr const char* told =
    "SELECT movement.id, movement.posting_id, movement.kind, movement.lot_id, from_holder, "
    "to_holder, movement.quantity, movement.value, f.kind, t.kind, "
    "(SELECT material_id FROM lot WHERE lot.id = movement.lot_id), "
    "posting.kind, made_on, recorded_at, who, note, reverses "
    "FROM movement CROSS JOIN posting ON posting.id = movement.posting_id "
    "CROSS JOIN holder f ON f.id = from_holder CROSS JOIN holder t ON t.id = to_holder WHERE ";

ToldMovement told_from(SQLite::Statement& row) {
    ToldMovement line;
    Movement& movement = line.movement;
    movement.id = row.getColumn(0).getInt64();
    movement.posting_id = row.getColumn(1).getInt64();
    movement.kind = row.getColumn(2).getString();
    if (!row.getColumn(3).isNull()) movement.lot = row.getColumn(3).getInt64();
    movement.from = row.getColumn(4).getInt64();
    movement.to = row.getColumn(5).getInt64();
    movement.quantity = row.getColumn(6).getInt64();
    movement.value = base::Money::of_minor(row.getColumn(7).getInt64());
    line.from_kind = row.getColumn(8).getString();
    line.to_kind = row.getColumn(9).getString();
    if (!row.getColumn(10).isNull()) line.material_id = row.getColumn(10).getInt64();
    Posting& posting = line.posting;
    posting.id = movement.posting_id;
    posting.kind = row.getColumn(11).getString();
    posting.made_on = base::read_date(row.getColumn(12).getString(), "posting made_on");
    posting.recorded_at = row.getColumn(13).getString();
    posting.who = row.getColumn(14).getString();
    posting.note = row.getColumn(15).getString();
    if (!row.getColumn(16).isNull()) posting.reverses = row.getColumn(16).getInt64();
    return line;
}

std::vector<ToldMovement> told_where(Database& database, const char* where, std::int64_t value) {
    std::vector<ToldMovement> lines;
    SQLite::Statement query(database.sql(), std::string(told) + where);
    query.bind(1, value);
    while (query.executeStep()) lines.push_back(told_from(query));
    return lines;
}

constexpr const char* holder_name =
    "SELECT CASE kind "
    "WHEN 'shelf' THEN (SELECT 'the lot of ' || code || ' received on ' || received_on "
    "  FROM lot JOIN material ON material.id = material_id WHERE lot.id = ?1) "
    "WHEN 'offcut' THEN (SELECT 'offcut ' || code FROM offcut WHERE id = ?1) "
    "WHEN 'batch' THEN (SELECT 'batch ' || number FROM batch WHERE id = ?1) "
    "WHEN 'journal' THEN (SELECT 'journal ' || serial FROM journal WHERE id = ?1) "
    "WHEN 'outside' THEN 'the supplier' WHEN 'sold' THEN 'sold' "
    "WHEN 'made' THEN 'the finished journals' ELSE 'written off' END FROM holder WHERE id = ?1";

} // namespace

std::vector<Posting> postings_taking_from(Database& database, std::int64_t holder,
                                          std::int64_t posting) {
    std::vector<Posting> postings;
    SQLite::Statement query(database.sql(),
                            "SELECT DISTINCT posting_id FROM movement "
                            "WHERE from_holder = ? AND posting_id > ? ORDER BY posting_id");
    query.bind(1, holder);
    query.bind(2, posting);
    while (query.executeStep()) {
        const std::int64_t id = query.getColumn(0).getInt64();
        if (reversal_of(database, id)) continue;
        const auto taker = posting_by_id(database, id);
        if (taker && !taker->reverses) postings.push_back(*taker);
    }
    return postings;
}

HolderNames::HolderNames(Database& database) : query_(database.sql(), holder_name) {}

std::string HolderNames::of(std::int64_t holder) {
    query_.reset();
    query_.bind(1, holder);
    const bool named = query_.executeStep() && !query_.getColumn(0).isNull();
    return named ? query_.getColumn(0).getString() : std::string("?");
}

std::string name_of_holder(Database& database, std::int64_t holder) {
    return HolderNames(database).of(holder);
}

std::vector<ToldMovement> movements_of_lot(Database& database, std::int64_t lot) {
    return told_where(database, "movement.lot_id = ? ORDER BY movement.id", lot);
}

std::vector<ToldMovement> movements_of_material(Database& database, std::int64_t material) {
    return told_where(database,
                      "movement.lot_id IN (SELECT id FROM lot WHERE material_id = ?) "
                      "ORDER BY movement.id",
                      material);
}

std::vector<ToldMovement> movements_touching(Database& database, std::int64_t holder) {
    return told_where(database,
                      "movement.id IN (SELECT id FROM movement WHERE from_holder = ?1 "
                      "UNION SELECT id FROM movement WHERE to_holder = ?1) ORDER BY movement.id",
                      holder);
}

std::optional<ToldMovement> last_movement_from(Database& database, std::int64_t holder) {
    const auto lines = told_where(
        database, "movement.id = (SELECT max(id) FROM movement WHERE from_holder = ?)", holder);
    if (lines.empty()) return std::nullopt;
    return lines.front();
}

std::optional<base::Date> last_day_of(Database& database, std::int64_t holder) {
    std::optional<base::Date> last;
    for (const ToldMovement& line : movements_touching(database, holder))
        last = std::max(last.value_or(line.posting.made_on), line.posting.made_on);
    return last;
}

std::optional<base::Money> price_of_sale(Database& database, std::int64_t posting,
                                         std::int64_t journal) {
    SQLite::Statement query(database.sql(),
                            "SELECT price FROM sale WHERE posting_id = ? AND journal_id = ?");
    query.bind(1, posting);
    query.bind(2, journal);
    if (!query.executeStep()) return std::nullopt;
    return base::Money::of_minor(query.getColumn(0).getInt64());
}

std::vector<BatchEntry> entries_of_batch(Database& database, std::int64_t batch) {
    std::vector<BatchEntry> entries;
    SQLite::Statement query(database.sql(), "SELECT posting_id, status FROM batch_event "
                                            "WHERE batch_id = ? ORDER BY id");
    query.bind(1, batch);
    while (query.executeStep()) {
        std::string status = query.getColumn(1).getString();
        auto posting = posting_by_id(database, query.getColumn(0).getInt64());
        for (; posting; posting = reversal_of(database, posting->id)) {
            entries.push_back({*posting, status});
            status.clear();
        }
    }
    std::sort(entries.begin(), entries.end(),
              [](const BatchEntry& a, const BatchEntry& b) { return a.posting.id < b.posting.id; });
    return entries;
}

} // namespace barrow::store
