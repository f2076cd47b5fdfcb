#pragma once

#include "workshop/buying/orders.hpp"

#include <string>

namespace barrow::print {

/// A list of orders for a person: one line each.
std::string screen(const workshop::Orders& orders);
/// One order with its lines.
std::string screen(const workshop::OrderView& order, const workshop::Settings& settings);
/// What was ordered for a reorder: a line for each order.
std::string screen(const workshop::ReorderPlaced& placed);

/// The same as JSON documents: "orders", each with its lines, and one alone: "order".
std::string document(const workshop::Orders& orders);
std::string order_document(const workshop::OrderView& order, const workshop::Settings& settings);

/// As CSV, a row for each line of the orders: to send to a supplier, or to keep.
std::string csv(const workshop::Orders& orders);

} // namespace barrow::print
