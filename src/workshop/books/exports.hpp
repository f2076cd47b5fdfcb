#pragma once

#include "store/file/database.hpp"

#include <string>
#include <vector>

namespace barrow::workshop {

/// A table of the shop as plain text cells, for a spreadsheet.
struct ExportedTable {
    std::string what; ///< "materials", ...
    std::vector<std::string> columns;
    std::vector<std::vector<std::string>> rows; ///< as many cells as there are columns
};

/// "suppliers", "materials", "receipts", "offcuts", "journals", "stock", "log".
const std::vector<std::string>& export_names();

/// One of these tables. Suppliers, materials and receipts have the columns of their imports
/// (supplier_fields, material_fields, receipt_fields) and hold everything the shop knows of them:
/// brought into a new shop with the same currency and unit in that order, they export to the same
/// bytes again. Receipts are those of suppliers that stand, at what they cost with their share of
/// freight and tax, each delivery under a number of its own; what came otherwise (at a count) is
/// not among them. Offcuts, journals and stock are what is there; the log is every entry, oldest
/// first. Cost grows with what is listed. Throws base::Error (Kind::usage) for another name.
ExportedTable export_table(store::Database& database, const std::string& what);

} // namespace barrow::workshop
