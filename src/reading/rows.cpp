#include "reading/rows.hpp"

#include <fmt/format.h>

#include <string_view>

namespace barrow::reading {

std::string as_written(const std::string& cell) {
    constexpr std::string_view formula_signs = "=+-@\t\r";
    const std::size_t sign = cell.find_first_not_of('\'');
    const bool defused = sign != std::string::npos && sign > 0
                         && formula_signs.find(cell[sign]) != std::string_view::npos;
    return defused ? cell.substr(1) : cell;
}

std::vector<workshop::Row> rows_of(const CsvTable& table) {
    std::vector<workshop::Row> rows;
    rows.reserve(table.rows.size());
    for (const CsvRow& csv : table.rows) {
        workshop::Row row;
        row.where = fmt::format("{}:{}", table.file, csv.line);
        for (std::size_t i = 0; i < csv.cells.size(); ++i)
            row.fields[table.columns[i]] = as_written(csv.cells[i]);
        rows.push_back(row);
    }
    return rows;
}

} // namespace barrow::reading
