#pragma once

#include "store/file/database.hpp"

#include <cstdint>
#include <string>
#include <vector>

/// The same rows, read and written by SQL alone: what the file itself costs.
namespace barrow::bench {

/// Reads all rows of a query, every column; gives how many rows there were. `bound` is its
/// parameter if it has one.
std::int64_t read_rows(store::Database& database, const std::string& query, std::int64_t bound = 0);

/// Everything a use case adds to the ledger's and the batches' tables.
class AddedRows {
public:
    /// Marks where the tables end now.
    explicit AddedRows(store::Database& database);
    /// Copies what was added since.
    void collect(store::Database& database);
    /// Writes it elsewhere, in one transaction with prepared statements.
    void write_to(store::Database& other) const;
    std::int64_t count() const;

private:
    struct Cell {
        int type = 0;
        std::int64_t number = 0;
        std::string text;
    };
    struct Table {
        const char* name;
        const char* key; ///< a column that grows
        std::int64_t last = 0;
        std::vector<std::vector<Cell>> rows = {};
    };
    std::vector<Table> tables_;
};

} // namespace barrow::bench
