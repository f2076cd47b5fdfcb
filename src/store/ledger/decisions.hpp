#pragma once

#include "base/money.hpp"
#include "store/file/database.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace barrow::store {

/// Writes which cost order holds from a posting on.
void add_cost_order(Database& database, std::int64_t posting, const std::string& method);

/// The cost order that holds: the latest whose posting stands; nothing when none was decided.
std::optional<std::string> cost_order(Database& database);

/// The cost order that held when a posting was written: as it stood then, whatever was taken back
/// since.
std::optional<std::string> cost_order_before(Database& database, std::int64_t posting);

/// A journal sold by a posting.
struct Sale {
    std::int64_t posting_id = 0;
    std::int64_t journal_id = 0;
    base::Money price;
};

void add_sale(Database& database, const Sale& sale);
/// Sales of a journal, those of reversed postings left out.
std::vector<Sale> standing_sales(Database& database, std::int64_t journal);

} // namespace barrow::store
