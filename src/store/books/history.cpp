#include "store/books/history.hpp"

#include "store/file/rows.hpp"

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

/// All columns but the last, the day on which the lot was received.
ToldMovement told_from(Query& row) {
    ToldMovement line;
    Movement& movement = line.movement;
    movement.id = row.number();
    movement.posting_id = row.number();
    movement.kind = row.text();
    movement.lot = row.maybe_number();
    movement.from = row.number();
    movement.to = row.number();
    movement.quantity = row.number();
    movement.value = row.money();
    line.from_kind = row.text();
    line.to_kind = row.text();
    line.material_id = row.number();
    line.unit = row.number();
    Posting& posting = line.posting;
    posting.id = movement.posting_id;
    posting.kind = row.text();
    posting.made_on = row.date("posting made_on");
    posting.recorded_at = row.text();
    posting.who = row.text();
    posting.note = row.text();
    posting.reverses = row.maybe_number();
    line.from = row.text();
    line.to = row.text();
    line.supplier = row.text();
    return line;
}

std::string code_of(Database& database, std::int64_t material) {
    Query query(database, "SELECT code FROM material WHERE id = ?", material);
    return query.next() ? query.text() : std::string();
}

std::vector<ToldMovement> told_where(Database& database, const char* where, std::int64_t value) {
    std::vector<ToldMovement> lines;
    std::map<std::int64_t, std::string> codes; // of materials
    Query query(database, told() + where, value);
    while (query.next()) {
        ToldMovement& line = lines.emplace_back(told_from(query));
        if (!line.from.empty() && !line.to.empty()) continue;
        std::string& known = codes[line.material_id];
        if (known.empty()) known = code_of(database, line.material_id);
        (line.from.empty() ? line.from : line.to) =
            "the lot of " + known + " received on " + query.text();
    }
    return lines;
}

} // namespace

namespace {

std::vector<Posting> postings_since(Database& database, const std::string& side,
                                    std::int64_t holder, std::int64_t posting) {
    std::vector<Posting> postings;
    Query query(database,
                "SELECT DISTINCT posting_id FROM movement WHERE " + side
                    + " = ? AND posting_id > ? ORDER BY posting_id",
                holder, posting);
    while (query.next()) {
        const std::int64_t id = query.number();
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
    Query query(database, "SELECT " + name_of("kind", "?1") + " FROM holder WHERE id = ?1", holder);
    const std::string name = query.next() ? query.text() : std::string();
    return name.empty() ? "?" : name;
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
    Query query(database, "SELECT price FROM sale WHERE posting_id = ? AND journal_id = ?", posting,
                journal);
    if (!query.next()) return std::nullopt;
    return query.money();
}

std::vector<BatchEntry> entries_of_batch(Database& database, std::int64_t batch) {
    std::vector<BatchEntry> entries;
    Query query(database,
                "SELECT posting_id, status FROM batch_event "
                "WHERE batch_id = ? ORDER BY id",
                batch);
    while (query.next()) {
        auto posting = posting_by_id(database, query.number());
        std::string status = query.text();
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
