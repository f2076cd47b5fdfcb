#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace barrow::reading {

/// A row of a CSV file with the line it begins on.
struct CsvRow {
    int line = 0;
    std::vector<std::string> cells;
};

/// A CSV file: the cells of its first row are the names of its columns.
struct CsvTable {
    std::string file;
    std::vector<std::string> columns;
    std::vector<CsvRow> rows;
};

/// Reads CSV text (RFC 4180: commas, quotes doubled inside quotes, CRLF or LF; a byte order mark
/// is skipped; empty lines are left out). `known` are the columns the reader understands.
/// Throws base::Error (Kind::bad_input) naming file, line and column: for text that is not UTF-8
/// or not CSV, a file without a header, a column that is unknown (with the nearest) or named
/// twice, a row with more cells than there are columns, and a file that separates with semicolons
/// or tabs.
CsvTable read_csv(std::string_view text, const std::string& file,
                  const std::vector<std::string>& known);

} // namespace barrow::reading
