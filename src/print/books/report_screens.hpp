#pragma once

#include "workshop/books/exports.hpp"
#include "workshop/books/reports.hpp"

#include <string>

namespace barrow::print {

/// Reports for a person.
std::string screen(const workshop::StockOn& stock);
std::string screen(const workshop::Usage& usage);
std::string screen(const workshop::SlowStock& slow);
std::string screen(const workshop::BoxByAge& box);
std::string screen(const workshop::Year& year);

/// The same as JSON documents: "stock_on", "usage", "slow_stock", "offcut_ages", "year".
std::string document(const workshop::StockOn& stock);
std::string document(const workshop::Usage& usage);
std::string document(const workshop::SlowStock& slow);
std::string document(const workshop::BoxByAge& box);
std::string document(const workshop::Year& year);

/// The same as CSV: a row for each line of the screen; of a year, a row for each amount.
std::string csv(const workshop::StockOn& stock);
std::string csv(const workshop::Usage& usage);
std::string csv(const workshop::SlowStock& slow);
std::string csv(const workshop::BoxByAge& box);
std::string csv(const workshop::Year& year);

/// A table of the shop as CSV, and as a JSON document ("export").
std::string csv(const workshop::ExportedTable& table);
std::string document(const workshop::ExportedTable& table);

} // namespace barrow::print
