#pragma once

#include "print/blocks/blocks.hpp"
#include "workshop/books/reports.hpp"

#include <string>

namespace barrow::print {

/// What was on hand at the end of a day. JSON: "stock_on". CSV: a row for each material.
Blocks blocks(const workshop::StockOn& stock);
std::string screen(const workshop::StockOn& stock);
std::string document(const workshop::StockOn& stock);
std::string csv(const workshop::StockOn& stock);

/// What was used, month by month. JSON: "usage". CSV: a row for each month and material.
Blocks blocks(const workshop::Usage& usage);
std::string screen(const workshop::Usage& usage);
std::string document(const workshop::Usage& usage);
std::string csv(const workshop::Usage& usage);

/// Materials that are not used. JSON: "slow_stock". CSV: a row for each material.
Blocks blocks(const workshop::SlowStock& slow);
std::string screen(const workshop::SlowStock& slow);
std::string document(const workshop::SlowStock& slow);
std::string csv(const workshop::SlowStock& slow);

/// The offcut box by age. JSON: "offcut_ages". CSV: a row for each offcut.
Blocks blocks(const workshop::BoxByAge& box);
std::string screen(const workshop::BoxByAge& box);
std::string document(const workshop::BoxByAge& box);
std::string csv(const workshop::BoxByAge& box);

/// The cost of goods of a year. JSON: "year". CSV: a row for each amount.
Blocks blocks(const workshop::Year& year);
std::string screen(const workshop::Year& year);
std::string document(const workshop::Year& year);
std::string csv(const workshop::Year& year);

} // namespace barrow::print
