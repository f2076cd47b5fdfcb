#pragma once

#include "reading/csv_table.hpp"
#include "workshop/fields.hpp"

#include <vector>

namespace barrow::reading {

/// The rows of a CSV table as the use cases take them, each knowing its file and line.
std::vector<workshop::Row> rows_of(const CsvTable& table);

} // namespace barrow::reading
