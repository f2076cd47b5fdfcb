#include "print/write/table_csv.hpp"

#include "base/text.hpp"
#include "print/csv/csv_text.hpp"

#include <set>

namespace barrow::print {
namespace {

/// "Of which waste" as "of_which_waste": letters in lower case, everything else that is ASCII and
/// no digit as one underscore.
std::string csv_name(const std::string& words) {
    std::string name;
    for (const char c : base::lowered(words)) {
        const bool kept = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || (c & 0x80) != 0;
        if (kept)
            name += c;
        else if (!name.empty() && name.back() != '_')
            name += '_';
    }
    while (!name.empty() && name.back() == '_') name.pop_back();
    return name.empty() ? "column" : name;
}

CsvCell csv_cell(const Cell& cell) {
    const bool number = (cell.kind == Kind::money || cell.kind == Kind::count)
                        && cell.text.find_first_not_of("-0123456789.") == std::string::npos;
    return number ? CsvCell::number(cell.text) : CsvCell(cell.text);
}

} // namespace

std::vector<std::string> csv_columns(const Table& table) {
    std::vector<std::string> names;
    std::set<std::string> known;
    for (const Column& column : table.columns()) {
        const std::string name = csv_name(column.name.empty() ? column.heading : column.name);
        std::string own = name;
        for (int n = 2; !known.insert(own).second; ++n) own = name + "_" + std::to_string(n);
        names.push_back(own);
    }
    return names;
}

std::string table_csv(const Table& table) {
    CsvText text(csv_columns(table));
    for (const auto& row : table.rows()) {
        if (row.empty()) continue;
        std::vector<CsvCell> cells;
        for (const Cell& cell : row) cells.push_back(csv_cell(cell));
        text.row(cells);
    }
    return text.text();
}

} // namespace barrow::print
