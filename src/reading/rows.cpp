#include "reading/rows.hpp"

#include <fmt/format.h>

namespace barrow::reading {

std::vector<workshop::Row> rows_of(const CsvTable& table) {
    std::vector<workshop::Row> rows;
    rows.reserve(table.rows.size());
    for (const CsvRow& csv : table.rows) {
        workshop::Row row;
        row.where = fmt::format("{}:{}", table.file, csv.line);
        for (std::size_t i = 0; i < csv.cells.size(); ++i)
            row.fields[table.columns[i]] = csv.cells[i];
        rows.push_back(row);
    }
    return rows;
}

} // namespace barrow::reading
