#include "store/selling/fairs.hpp"

#include "store/file/rows.hpp"

namespace barrow::store {
namespace {

std::vector<FairCost> read_costs(Database& database, std::int64_t fair) {
    std::vector<FairCost> costs;
    Query query(database,
                "SELECT posting_id, what, amount FROM fair_cost "
                "WHERE fair_id = ? ORDER BY posting_id, what",
                fair);
    while (query.next())
        if (stands(database, query.number())) costs.push_back({query.text(), query.money()});
    return costs;
}

/// Journals taken along or sold there, with the price where they were sold.
std::vector<FairJournal> read_journals(Database& database, std::int64_t fair) {
    std::vector<FairJournal> journals;
    Query query(
        database,
        "SELECT t.posting_id, serial, NULL, r.name FROM fair_take t "
        "JOIN journal j ON j.id = t.journal_id "
        "JOIN batch_run r ON r.batch_id = j.batch_id AND r.run = j.run WHERE t.fair_id = ?1 "
        "UNION ALL SELECT f.posting_id, serial, sale.price, r.name FROM fair_sale f "
        "JOIN sale ON sale.posting_id = f.posting_id JOIN journal j ON j.id = sale.journal_id "
        "JOIN batch_run r ON r.batch_id = j.batch_id AND r.run = j.run WHERE f.fair_id = ?1 "
        "ORDER BY serial, 3",
        fair);
    while (query.next()) {
        if (!stands(database, query.number())) continue;
        const std::string serial = query.text();
        const auto sold_for = query.maybe_money();
        if (journals.empty() || journals.back().journal.serial != serial)
            journals.push_back({find_journal(database, serial).value(), query.text(), {}});
        if (sold_for) journals.back().sold_for = sold_for;
    }
    return journals;
}

template <typename... Values>
std::vector<Fair> fairs_where(Database& database, const std::string& where,
                              const Values&... values) {
    std::vector<Fair> fairs;
    Query query(database, "SELECT id, posting_id, name, held_on FROM fair " + where, values...);
    while (query.next()) {
        Fair& fair = fairs.emplace_back();
        fair.number = query.number();
        fair.noted = posting_by_id(database, query.number()).value();
        fair.name = query.text();
        fair.held_on = query.date("fair held_on");
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
    return insert(database, "INSERT INTO fair (posting_id, name, held_on) VALUES (?, ?, ?)",
                  fair.noted.id, fair.name, fair.held_on);
}

void add_fair_cost(Database& database, std::int64_t posting, std::int64_t fair,
                   const FairCost& cost) {
    execute(database,
            "INSERT INTO fair_cost (posting_id, fair_id, what, amount) VALUES (?, ?, ?, ?)",
            posting, fair, cost.what, cost.amount);
}

void add_fair_take(Database& database, std::int64_t posting, std::int64_t fair,
                   std::int64_t journal, const std::optional<base::Money>& asked) {
    execute(database,
            "INSERT INTO fair_take (posting_id, fair_id, journal_id, asked) VALUES (?, ?, ?, ?)",
            posting, fair, journal, asked);
}

std::optional<base::Money> asked_at_fair(Database& database, std::int64_t journal) {
    Query query(database,
                "SELECT posting_id, asked FROM fair_take "
                "WHERE journal_id = ? ORDER BY posting_id DESC",
                journal);
    while (query.next()) {
        if (!stands(database, query.number())) continue;
        return query.maybe_money();
    }
    return std::nullopt;
}

void add_fair_sale(Database& database, std::int64_t posting, std::int64_t fair) {
    execute(database, "INSERT INTO fair_sale (posting_id, fair_id) VALUES (?, ?)", posting, fair);
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
    Query query(database,
                "SELECT c.posting_id, amount FROM fair CROSS JOIN fair_cost c "
                "ON c.fair_id = fair.id WHERE held_on BETWEEN ? AND ?",
                from, to);
    while (query.next())
        if (stands(database, query.number())) sum += query.money();
    return sum;
}

Belonging fairs_of_posting(Database& database, std::int64_t posting) {
    Belonging fairs;
    Query noted(database, "SELECT id FROM fair WHERE posting_id = ?", posting);
    if (noted.next()) {
        fairs.begins = noted.number();
        return fairs;
    }
    Query query(database,
                std::string("SELECT fair_id FROM (") + following + ") WHERE posting_id = ?",
                posting);
    while (query.next()) fairs.follows.push_back(query.number());
    return fairs;
}

std::vector<Posting> postings_at_fair(Database& database, std::int64_t fair) {
    std::vector<Posting> postings;
    Query query(database,
                std::string("SELECT f.posting_id FROM (") + following
                    + ") f JOIN fair ON fair.id = f.fair_id WHERE f.fair_id = ? "
                      "AND f.posting_id <> fair.posting_id ORDER BY 1",
                fair);
    while (query.next()) {
        const std::int64_t posting = query.number();
        if (stands(database, posting)) postings.push_back(posting_by_id(database, posting).value());
    }
    return postings;
}

} // namespace barrow::store
