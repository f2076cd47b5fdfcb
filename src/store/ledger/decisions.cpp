#include "store/ledger/decisions.hpp"

#include "store/file/rows.hpp"
#include "store/ledger/ledger.hpp"

namespace barrow::store {

void add_cost_order(Database& database, std::int64_t posting, const std::string& method) {
    execute(database, "INSERT INTO cost_order (posting_id, method) VALUES (?, ?)", posting, method);
}

std::optional<std::string> cost_order(Database& database) {
    Query query(database, "SELECT posting_id, method FROM cost_order ORDER BY posting_id DESC");
    while (query.next())
        if (stands(database, query.number())) return query.text();
    return std::nullopt;
}

std::optional<std::string> cost_order_before(Database& database, std::int64_t posting) {
    Query query(database,
                "SELECT posting_id, method FROM cost_order "
                "WHERE posting_id < ? ORDER BY posting_id DESC",
                posting);
    while (query.next()) {
        bool stood = true;
        for (auto reversal = reversal_of(database, query.number());
             reversal && reversal->id < posting; reversal = reversal_of(database, reversal->id))
            stood = !stood;
        if (stood) return query.text();
    }
    return std::nullopt;
}

void add_sale(Database& database, const Sale& sale) {
    execute(database, "INSERT INTO sale (posting_id, journal_id, price) VALUES (?, ?, ?)",
            sale.posting_id, sale.journal_id, sale.price);
}

std::vector<Sale> standing_sales(Database& database, std::int64_t journal) {
    std::vector<Sale> sales;
    Query query(database,
                "SELECT posting_id, price FROM sale "
                "WHERE journal_id = ? ORDER BY posting_id",
                journal);
    while (query.next()) {
        const std::int64_t posting = query.number();
        if (stands(database, posting)) sales.push_back({posting, journal, query.money()});
    }
    return sales;
}

} // namespace barrow::store
