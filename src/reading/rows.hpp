#pragma once

#include "reading/csv_table.hpp"
#include "workshop/shared/fields.hpp"

#include <string>
#include <vector>

namespace barrow::reading {

/// The rows of a CSV table as the use cases take them, each knowing its file and line; every cell
/// as_written.
std::vector<workshop::Row> rows_of(const CsvTable& table);

/// A cell as the maker wrote it: takes off the apostrophe that is put before a text which a
/// spreadsheet would run as a formula (print::CsvText), so '=A1 is read as =A1 and ''=A1 as '=A1.
/// Any other text is left as it is, apostrophes included.
std::string as_written(const std::string& cell);

} // namespace barrow::reading
