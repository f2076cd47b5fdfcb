#pragma once

#include "base/date.hpp"
#include "base/money.hpp"
#include "store/ledger/ledger.hpp"

#include <cstdint>
#include <map>
#include <optional>
#include <string_view>
#include <vector>

namespace barrow::store {

/// One material of an order. Units: sheets, rolls, strips, counted things; bulk in thousandths.
struct OrderLine {
    std::int64_t material_id = 0;
    std::int64_t units = 0;          ///< asked for
    std::optional<base::Money> cost; ///< agreed for all of them
    std::int64_t received = 0;       ///< units that came so far; may be more than was asked for;
                                     ///< what was sent back since did come all the same
    base::Money paid;                ///< for those, with freight and tax

    std::int64_t outstanding() const { return received < units ? units - received : 0; }
};

enum class OrderStatus {
    undone,   ///< the entry that placed it was reversed
    open,     ///< something is outstanding
    received, ///< all of it came
    ended,    ///< the rest is not coming
};

/// "undone", "open", "received", "ended".
std::string_view name_of(OrderStatus status);

/// An order placed with a supplier; see schema/5_buying.sql.
struct SupplyOrder {
    std::int64_t number = 0;
    Posting placed; ///< its entry: the day, who, a note
    std::int64_t supplier_id = 0;
    base::Date expected_on;
    std::vector<OrderLine> lines; ///< by code of the material
    OrderStatus status = OrderStatus::open;
};

/// Writes the order under its posting (`placed.id`) with its lines, and gives its number.
std::int64_t add_order(Database& database, const SupplyOrder& order);
/// Notes that a lot came for an order that has a line of its material.
void add_order_receipt(Database& database, std::int64_t lot, std::int64_t order,
                       std::int64_t material);
void add_order_end(Database& database, std::int64_t posting, std::int64_t order);

std::optional<SupplyOrder> find_order(Database& database, std::int64_t number);
/// Newest first.
std::vector<SupplyOrder> all_orders(Database& database);

/// Units of what came for an order that were sent back since, by material.
std::map<std::int64_t, std::int64_t> sent_back(Database& database, std::int64_t order);

/// What of a material is outstanding on an order that is open.
struct OnOrder {
    std::int64_t order = 0;
    base::Date expected_on;
    std::int64_t units = 0;
};
/// By material, the order expected first in front.
std::map<std::int64_t, std::vector<OnOrder>> on_order(Database& database);

/// The order that a posting placed, and those it brought something of or ended.
Belonging orders_of_posting(Database& database, std::int64_t posting);

/// Standing postings that brought something of an order or ended it, oldest first.
std::vector<Posting> postings_following(Database& database, std::int64_t order);

} // namespace barrow::store
