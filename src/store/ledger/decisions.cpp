#include "store/ledger/decisions.hpp"

#include "store/ledger/ledger.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

namespace barrow::store {

void add_cost_order(Database& database, std::int64_t posting, const std::string& method) {
    SQLite::Statement statement(database.sql(),
                                "INSERT INTO cost_order (posting_id, method) VALUES (?, ?)");
    statement.bind(1, posting);
    statement.bind(2, method);
    statement.exec();
}

std::optional<std::string> cost_order(Database& database) {
    SQLite::Statement query(database.sql(),
                            "SELECT posting_id, method FROM cost_order ORDER BY posting_id DESC");
    while (query.executeStep())
        if (stands(database, query.getColumn(0).getInt64())) return query.getColumn(1).getString();
    return std::nullopt;
}

std::optional<std::string> cost_order_before(Database& database, std::int64_t posting) {
    SQLite::Statement query(database.sql(), "SELECT posting_id, method FROM cost_order "
                                            "WHERE posting_id < ? ORDER BY posting_id DESC");
    query.bind(1, posting);
    while (query.executeStep()) {
        bool stood = true;
        for (auto reversal = reversal_of(database, query.getColumn(0).getInt64());
             reversal && reversal->id < posting; reversal = reversal_of(database, reversal->id))
            stood = !stood;
        if (stood) return query.getColumn(1).getString();
    }
    return std::nullopt;
}

void add_sale(Database& database, const Sale& sale) {
    SQLite::Statement statement(
        database.sql(), "INSERT INTO sale (posting_id, journal_id, price) VALUES (?, ?, ?)");
    statement.bind(1, sale.posting_id);
    statement.bind(2, sale.journal_id);
    statement.bind(3, sale.price.minor());
    statement.exec();
}

std::vector<Sale> standing_sales(Database& database, std::int64_t journal) {
    std::vector<Sale> sales;
    SQLite::Statement query(database.sql(), "SELECT posting_id, price FROM sale "
                                            "WHERE journal_id = ? ORDER BY posting_id");
    query.bind(1, journal);
    while (query.executeStep()) {
        const std::int64_t posting = query.getColumn(0).getInt64();
        if (stands(database, posting))
            sales.push_back(
                {posting, journal, base::Money::of_minor(query.getColumn(1).getInt64())});
    }
    return sales;
}

} // namespace barrow::store
