#include "store/selling/fairs.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

namespace barrow::store {
namespace {

std::vector<FairCost> read_costs(Database& database, std::int64_t fair) {
    std::vector<FairCost> costs;
    SQLite::Statement query(database.sql(), "SELECT posting_id, what, amount FROM fair_cost "
                                            "WHERE fair_id = ? ORDER BY posting_id, what");
    query.bind(1, fair);
    while (query.executeStep())
        if (stands(database, query.getColumn(0).getInt64()))
            costs.push_back({query.getColumn(1).getString(),
                             base::Money::of_minor(query.getColumn(2).getInt64())});
    return costs;
}

/// Journals taken along or sold there, with the price where they were sold.
std::vector<FairJournal> read_journals(Database& database, std::int64_t fair) {
    std::vector<FairJournal> journals;
    SQLite::Statement query(
        database.sql(),
        "SELECT t.posting_id, serial, NULL, r.name FROM fair_take t "
        "JOIN journal j ON j.id = t.journal_id "
        "JOIN batch_run r ON r.batch_id = j.batch_id AND r.run = j.run WHERE t.fair_id = ?1 "
        "UNION ALL SELECT f.posting_id, serial, sale.price, r.name FROM fair_sale f "
        "JOIN sale ON sale.posting_id = f.posting_id JOIN journal j ON j.id = sale.journal_id "
        "JOIN batch_run r ON r.batch_id = j.batch_id AND r.run = j.run WHERE f.fair_id = ?1 "
        "ORDER BY serial, 3");
    query.bind(1, fair);
    while (query.executeStep()) {
        if (!stands(database, query.getColumn(0).getInt64())) continue;
        const std::string serial = query.getColumn(1).getString();
        if (journals.empty() || journals.back().journal.serial != serial)
            journals.push_back({find_journal(database, serial).value(),
                                query.getColumn(3).getString(), std::nullopt});
        if (!query.getColumn(2).isNull())
            journals.back().sold_for = base::Money::of_minor(query.getColumn(2).getInt64());
    }
    return journals;
}

std::vector<Fair> fairs_where(Database& database, const std::string& where,
                              std::optional<std::int64_t> value = std::nullopt) {
    std::vector<Fair> fairs;
    SQLite::Statement query(database.sql(),
                            "SELECT id, posting_id, name, held_on FROM fair " + where);
    if (value) query.bind(1, *value);
    while (query.executeStep()) {
        Fair& fair = fairs.emplace_back();
        fair.number = query.getColumn(0).getInt64();
        fair.noted = posting_by_id(database, query.getColumn(1).getInt64()).value();
        fair.name = query.getColumn(2).getString();
        fair.held_on = base::read_date(query.getColumn(3).getString(), "fair held_on");
        fair.undone = !stands(database, fair.noted.id);
        fair.costs = read_costs(database, fair.number);
        fair.journals = read_journals(database, fair.number);
    }
    return fairs;
}

/// Postings that belong to a fair beside the one that noted it.
constexpr const char* following =
    "SELECT posting_id, fair_id FROM fair_cost UNION SELECT posting_id, fair_id FROM fair_take "
    "UNION SELECT posting_id, fair_id FROM fair_sale";

} // namespace

std::int64_t add_fair(Database& database, const Fair& fair) {
    SQLite::Statement statement(database.sql(),
                                "INSERT INTO fair (posting_id, name, held_on) VALUES (?, ?, ?)");
    statement.bind(1, fair.noted.id);
    statement.bind(2, fair.name);
    statement.bind(3, base::to_text(fair.held_on));
    statement.exec();
    return database.sql().getLastInsertRowid();
}

void add_fair_cost(Database& database, std::int64_t posting, std::int64_t fair,
                   const FairCost& cost) {
    SQLite::Statement statement(
        database.sql(),
        "INSERT INTO fair_cost (posting_id, fair_id, what, amount) VALUES (?, ?, ?, ?)");
    statement.bind(1, posting);
    statement.bind(2, fair);
    statement.bind(3, cost.what);
    statement.bind(4, cost.amount.minor());
    statement.exec();
}

void add_fair_take(Database& database, std::int64_t posting, std::int64_t fair,
                   std::int64_t journal, const std::optional<base::Money>& asked) {
    SQLite::Statement statement(
        database.sql(),
        "INSERT INTO fair_take (posting_id, fair_id, journal_id, asked) VALUES (?, ?, ?, ?)");
    statement.bind(1, posting);
    statement.bind(2, fair);
    statement.bind(3, journal);
    if (asked) statement.bind(4, asked->minor());
    statement.exec();
}

std::optional<base::Money> asked_at_fair(Database& database, std::int64_t journal) {
    SQLite::Statement query(database.sql(), "SELECT posting_id, asked FROM fair_take "
                                            "WHERE journal_id = ? ORDER BY posting_id DESC");
    query.bind(1, journal);
    while (query.executeStep()) {
        if (!stands(database, query.getColumn(0).getInt64())) continue;
        if (query.getColumn(1).isNull()) return std::nullopt;
        return base::Money::of_minor(query.getColumn(1).getInt64());
    }
    return std::nullopt;
}

void add_fair_sale(Database& database, std::int64_t posting, std::int64_t fair) {
    SQLite::Statement statement(database.sql(),
                                "INSERT INTO fair_sale (posting_id, fair_id) VALUES (?, ?)");
    statement.bind(1, posting);
    statement.bind(2, fair);
    statement.exec();
}

std::optional<Fair> find_fair(Database& database, std::int64_t number) {
    auto found = fairs_where(database, "WHERE id = ?", number);
    if (found.empty()) return std::nullopt;
    return std::move(found.front());
}

std::vector<Fair> all_fairs(Database& database) {
    return fairs_where(database, "ORDER BY held_on DESC, id DESC");
}

base::Money fair_costs(Database& database, const base::Date& from, const base::Date& to) {
    base::Money sum;
    SQLite::Statement query(database.sql(),
                            "SELECT c.posting_id, amount FROM fair CROSS JOIN fair_cost c "
                            "ON c.fair_id = fair.id WHERE held_on BETWEEN ? AND ?");
    query.bind(1, base::to_text(from));
    query.bind(2, base::to_text(to));
    while (query.executeStep())
        if (stands(database, query.getColumn(0).getInt64()))
            sum += base::Money::of_minor(query.getColumn(1).getInt64());
    return sum;
}

Belonging fairs_of_posting(Database& database, std::int64_t posting) {
    Belonging fairs;
    SQLite::Statement noted(database.sql(), "SELECT id FROM fair WHERE posting_id = ?");
    noted.bind(1, posting);
    if (noted.executeStep()) {
        fairs.begins = noted.getColumn(0).getInt64();
        return fairs;
    }
    SQLite::Statement query(database.sql(), std::string("SELECT fair_id FROM (") + following
                                                + ") WHERE posting_id = ?");
    query.bind(1, posting);
    while (query.executeStep()) fairs.follows.push_back(query.getColumn(0).getInt64());
    return fairs;
}

std::vector<Posting> postings_at_fair(Database& database, std::int64_t fair) {
    std::vector<Posting> postings;
    SQLite::Statement query(database.sql(),
                            std::string("SELECT f.posting_id FROM (") + following
                                + ") f JOIN fair ON fair.id = f.fair_id WHERE f.fair_id = ? "
                                  "AND f.posting_id <> fair.posting_id ORDER BY 1");
    query.bind(1, fair);
    while (query.executeStep()) {
        const std::int64_t posting = query.getColumn(0).getInt64();
        if (stands(database, posting)) postings.push_back(posting_by_id(database, posting).value());
    }
    return postings;
}

} // namespace barrow::store
