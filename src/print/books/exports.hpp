#pragma once

#include "workshop/books/exports.hpp"

#include <string>

namespace barrow::print {

/// A table of the shop as CSV.
std::string csv(const workshop::ExportedTable& table);
/// The same as JSON: "export".
std::string document(const workshop::ExportedTable& table);

} // namespace barrow::print
