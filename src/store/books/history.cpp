#include "store/books/history.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

#include <algorithm>
#include <map>

namespace barrow::store {
namespace {

/// A holder of the kind `kind` with the id `id` in words, as an SQL expression.
std::string name_of(const std::string& kind, const std::string& id) {
    return "CASE " + kind
           + " WHEN 'shelf' THEN (SELECT 'the lot of ' || code || ' received on ' || received_on "
             "FROM lot JOIN material ON material.id = material_id WHERE lot.id = "
           + id + ") WHEN 'offcut' THEN (SELECT 'offcut ' || code FROM offcut WHERE id = " + id
           + ") WHEN 'batch' THEN (SELECT 'batch ' || number FROM batch WHERE id = " + id
           + ") WHEN 'journal' THEN (SELECT 'journal ' || serial FROM journal WHERE id = " + id
           + ") WHEN 'outside' THEN 'the supplier' WHEN 'sold' THEN 'sold' "
             "WHEN 'made' THEN 'the finished journals' ELSE 'written off' END";
}

/// The lot's own shelf is named by what is read of the lot anyway: nothing is looked up for it.
std::string unless_own(const std::string& holder, const std::string& name) {
    return "CASE WHEN " + holder + " = movement.lot_id THEN '' ELSE " + name + " END";
}

// The joins are crossed so that the movements are found first, by their keys and in their order,
// and each then finds its entry, holders and lot by theirs: one statement, no sorting of rows.
const std::string& told() {
    static const std::string text =
        "SELECT movement.id, movement.posting_id, movement.kind, movement.lot_id, from_holder, "
        "to_holder, movement.quantity, movement.value, f.kind, t.kind, "
        "ifnull(lot.material_id, 0), lot.unit_width * lot.unit_height, "
        "posting.kind, made_on, recorded_at, who, posting.note, reverses, "
        + unless_own("from_holder", name_of("f.kind", "from_holder")) + ", "
        + unless_own("to_holder", name_of("t.kind", "to_holder"))
        + ", CASE WHEN 'outside' IN (f.kind, t.kind) THEN "
          "(SELECT name FROM supplier WHERE supplier.id = lot.supplier_id) END, lot.received_on "
          "FROM movement CROSS JOIN posting ON posting.id = movement.posting_id "
          "CROSS JOIN holder f ON f.id = from_holder CROSS JOIN holder t ON t.id = to_holder "
          "LEFT JOIN lot ON lot.id = movement.lot_id WHERE ";
    return text;
}

ToldMovement told_from(SQLite::Statement& row) {
    const auto number = [&](int column) { return row.getColumn(column).getInt64(); };
    const auto text = [&](int column) { return row.getColumn(column).getString(); };
    ToldMovement line;
    Movement& movement = line.movement;
    movement.id = number(0);
    movement.posting_id = number(1);
    movement.kind = text(2);
    if (!row.isColumnNull(3)) movement.lot = number(3);
    movement.from = number(4);
    movement.to = number(5);
    movement.quantity = number(6);
    movement.value = base::Money::of_minor(number(7));
    line.from_kind = text(8);
    line.to_kind = text(9);
    line.material_id = number(10);
    line.unit = number(11);
    Posting& posting = line.posting;
    posting.id = movement.posting_id;
    posting.kind = text(12);
    posting.made_on = base::read_date(text(13), "posting made_on");
    posting.recorded_at = text(14);
    posting.who = text(15);
    posting.note = text(16);
    if (!row.isColumnNull(17)) posting.reverses = number(17);
    line.from = text(18);
    line.to = text(19);
    line.supplier = text(20);
    return line;
}

std::vector<ToldMovement> told_where(Database& database, const char* where, std::int64_t value) {
    std::vector<ToldMovement> lines;
    std::map<std::int64_t, std::string> codes; // of materials
    SQLite::Statement code(database.sql(), "SELECT code FROM material WHERE id = ?");
    SQLite::Statement query(database.sql(), told() + where);
    query.bind(1, value);
    while (query.executeStep()) {
        ToldMovement& line = lines.emplace_back(told_from(query));
        if (!line.from.empty() && !line.to.empty()) continue;
        std::string& known = codes[line.material_id];
        if (known.empty()) {
            code.reset();
            code.bind(1, line.material_id);
            code.executeStep();
            known = code.getColumn(0).getString();
        }
        (line.from.empty() ? line.from : line.to) =
            "the lot of " + known + " received on " + query.getColumn(21).getString();
    }
    return lines;
}

} // namespace

namespace {

std::vector<Posting> postings_since(Database& database, const std::string& side,
                                    std::int64_t holder, std::int64_t posting) {
    std::vector<Posting> postings;
    SQLite::Statement query(database.sql(), "SELECT DISTINCT posting_id FROM movement WHERE " + side
                                                + " = ? AND posting_id > ? ORDER BY posting_id");
    query.bind(1, holder);
    query.bind(2, posting);
    while (query.executeStep()) {
        const std::int64_t id = query.getColumn(0).getInt64();
        if (reversal_of(database, id)) continue;
        const auto found = posting_by_id(database, id);
        if (found && !found->reverses) postings.push_back(*found);
    }
    return postings;
}

} // namespace

std::vector<Posting> postings_giving_to(Database& database, std::int64_t holder,
                                        std::int64_t posting) {
    return postings_since(database, "to_holder", holder, posting);
}

std::vector<Posting> postings_taking_from(Database& database, std::int64_t holder,
                                          std::int64_t posting) {
    return postings_since(database, "from_holder", holder, posting);
}

std::string name_of_holder(Database& database, std::int64_t holder) {
    SQLite::Statement query(database.sql(),
                            "SELECT " + name_of("kind", "?1") + " FROM holder WHERE id = ?1");
    query.bind(1, holder);
    const bool named = query.executeStep() && !query.isColumnNull(0);
    return named ? query.getColumn(0).getString() : std::string("?");
}

std::vector<ToldMovement> movements_of_lot(Database& database, std::int64_t lot) {
    return told_where(database,
                      "movement.id IN (SELECT id FROM movement WHERE lot_id = ?1 "
                      "UNION SELECT id FROM movement WHERE from_holder = ?1 "
                      "UNION SELECT id FROM movement WHERE to_holder = ?1) ORDER BY movement.id",
                      lot);
}

std::vector<ToldMovement> movements_of_material(Database& database, std::int64_t material) {
    return told_where(database,
                      "movement.id IN (SELECT m.id FROM lot CROSS JOIN movement m "
                      "ON m.lot_id = lot.id WHERE material_id = ?) ORDER BY movement.id",
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
