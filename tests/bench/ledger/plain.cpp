#include "plain.hpp"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

namespace barrow::bench {

std::int64_t read_rows(store::Database& database, const std::string& query, std::int64_t bound) {
    SQLite::Transaction transaction(database.sql(), SQLite::TransactionBehavior::DEFERRED);
    SQLite::Statement statement(database.sql(), query);
    if (statement.getBindParameterCount() > 0) statement.bind(1, bound);
    std::int64_t rows = 0, sum = 0;
    std::string text;
    while (statement.executeStep()) {
        for (int i = 0; i < statement.getColumnCount(); ++i) {
            const SQLite::Column column = statement.getColumn(i);
            if (column.isText()) {
                text = column.getString();
            } else {
                sum += column.getInt64();
            }
        }
        ++rows;
    }
    return rows + (sum == 0 && text == "never" ? 1 : 0);
}

AddedRows::AddedRows(store::Database& database)
    : tables_{{"posting", "id"},
              {"holder", "id"},
              {"batch", "id"},
              {"batch_run", "batch_id"},
              {"batch_part", "batch_id"},
              {"batch_sheet", "id"},
              {"batch_piece", "sheet_id"},
              {"batch_remnant", "sheet_id"},
              {"batch_take", "batch_id"},
              {"offcut", "id"},
              {"movement", "id"},
              {"cut_sheet", "id"},
              {"batch_event", "id"},
              {"finished_run", "posting_id"},
              {"journal", "id"}} {
    for (Table& table : tables_)
        table.last =
            database.sql()
                .execAndGet(fmt::format("SELECT ifnull(max({}), 0) FROM {}", table.key, table.name))
                .getInt64();
}

void AddedRows::collect(store::Database& database) {
    for (Table& table : tables_) {
        SQLite::Statement query(database.sql(), fmt::format("SELECT * FROM {} WHERE {} > {}",
                                                            table.name, table.key, table.last));
        while (query.executeStep()) {
            std::vector<Cell> row;
            for (int i = 0; i < query.getColumnCount(); ++i) {
                const SQLite::Column column = query.getColumn(i);
                Cell cell{column.getType(), 0, {}};
                if (column.isText()) cell.text = column.getString();
                if (column.isInteger()) cell.number = column.getInt64();
                row.push_back(std::move(cell));
            }
            table.rows.push_back(std::move(row));
        }
    }
}

void AddedRows::write_to(store::Database& other) const {
    SQLite::Transaction transaction(other.sql(), SQLite::TransactionBehavior::IMMEDIATE);
    for (const Table& table : tables_) {
        if (table.rows.empty()) continue;
        std::string marks = "?";
        for (std::size_t i = 1; i < table.rows.front().size(); ++i) marks += ", ?";
        SQLite::Statement insert(other.sql(),
                                 fmt::format("INSERT INTO {} VALUES ({})", table.name, marks));
        for (const auto& row : table.rows) {
            for (std::size_t i = 0; i < row.size(); ++i) {
                const int at = static_cast<int>(i) + 1;
                if (row[i].type == SQLite::INTEGER) {
                    insert.bind(at, row[i].number);
                } else if (row[i].type == SQLite::TEXT) {
                    insert.bind(at, row[i].text);
                } else {
                    insert.bind(at);
                }
            }
            insert.exec();
            insert.reset();
        }
    }
    transaction.commit();
}

std::int64_t AddedRows::count() const {
    std::int64_t rows = 0;
    for (const Table& table : tables_) rows += static_cast<std::int64_t>(table.rows.size());
    return rows;
}

} // namespace barrow::bench
