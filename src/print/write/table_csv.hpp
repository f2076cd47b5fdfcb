#pragma once

#include "print/blocks/blocks.hpp"

#include <string>
#include <vector>

namespace barrow::print {

/// The names of the columns of a table in a CSV file: their names or headings in lower case, words
/// joined by underscores ("of_which_waste"); a second column of one name ends in _2.
std::vector<std::string> csv_columns(const Table& table);

/// A table as CSV (see CsvText), a row for each of its rows: all columns, those that are empty too.
/// Amounts of money and counts are written as numbers, anything else as it reads.
std::string table_csv(const Table& table);

} // namespace barrow::print
