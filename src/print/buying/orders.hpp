#pragma once

#include "print/blocks/blocks.hpp"
#include "workshop/buying/orders.hpp"

#include <string>

namespace barrow::print {

/// Orders, a line each.
Blocks blocks(const workshop::Orders& orders);
std::string screen(const workshop::Orders& orders);
/// JSON: "orders", each with its lines.
std::string document(const workshop::Orders& orders);
/// A row for each line of the orders: to send to a supplier, or to keep.
std::string csv(const workshop::Orders& orders);

/// One order with its lines.
Blocks blocks(const workshop::OrderView& order, const workshop::Settings& settings);
std::string screen(const workshop::OrderView& order, const workshop::Settings& settings);
/// JSON: "order".
std::string order_document(const workshop::OrderView& order, const workshop::Settings& settings);

/// A reorder that was placed: what it was for, and a line for each order.
Blocks blocks(const workshop::ReorderPlaced& placed);
std::string screen(const workshop::ReorderPlaced& placed);

} // namespace barrow::print
