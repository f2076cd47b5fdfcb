#include "store/history.hpp"

#include <fmt/format.h>

namespace barrow::store {
namespace {

std::string one_text(Database& database, const char* query_text, std::int64_t id) {
    SQLite::Statement query(database.sql(), query_text);
    query.bind(1, id);
    return query.executeStep() ? query.getColumn(0).getString() : std::string("?");
}

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

std::string name_of_holder(Database& database, std::int64_t holder) {
    const std::string kind = kind_of_holder(database, holder);
    if (kind == "shelf")
        return one_text(database,
                        "SELECT 'the lot of ' || code || ' received on ' || received_on "
                        "FROM lot JOIN material ON material.id = material_id WHERE lot.id = ?",
                        holder);
    if (kind == "offcut")
        return one_text(database, "SELECT 'offcut ' || code FROM offcut WHERE id = ?", holder);
    if (kind == "batch")
        return one_text(database, "SELECT 'batch ' || number FROM batch WHERE id = ?", holder);
    if (kind == "journal")
        return one_text(database, "SELECT 'journal ' || serial FROM journal WHERE id = ?", holder);
    if (kind == "outside") return "the supplier";
    if (kind == "sold") return "sold";
    if (kind == "made") return "the finished journals";
    return "written off";
}

} // namespace barrow::store
