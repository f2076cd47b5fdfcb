#pragma once

#include "store/buying/orders.hpp"
#include "store/stock/catalogue.hpp"
#include "workshop/buying/buying.hpp"
#include "workshop/shared/context.hpp"
#include "workshop/shared/fields.hpp"
#include "workshop/shared/settings.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace barrow::workshop {

/// One line of an order with what it is of.
struct OrderLineView {
    store::OrderLine line;
    store::Material material;
    std::int64_t sent_back = 0; ///< units of what came for it that went back to the supplier
};

/// An order as it stands.
struct OrderView {
    store::SupplyOrder order;
    store::Supplier supplier;
    std::vector<OrderLineView> lines; ///< by code of the material
    bool overdue = false;             ///< open, and expected before today

    /// What is agreed for all lines whose price is known, and whether that is all of them.
    base::Money agreed() const;
    bool agreed_is_whole() const;
    /// Whether anything that came for it was sent back. That is not awaited again: what is to come
    /// once more is ordered anew.
    bool was_sent_back() const;
};

struct Orders {
    Settings settings;
    std::vector<OrderView> orders;
};

/// Fields a row of an order may have: material, units or packs, cost (agreed for all of it) or
/// price (of a pack).
const std::vector<std::string>& order_fields();

/// What is asked from a supplier.
struct WantedOrder {
    std::string supplier;               ///< code
    std::vector<Row> rows;              ///< with the fields of order_fields
    std::optional<base::Date> placed;   ///< else today
    std::optional<base::Date> expected; ///< else as many days later as the supplier needs
};

/// Places an order under one entry; the stock does not change until something is received for it.
/// A line without cost or price goes by the pack price of its material, if that is known. Throws
/// base::Error (Kind::bad_input) with every problem of every row.
OrderView place_order(Context& context, const WantedOrder& wanted);

/// What should be bought (see reorder), and the orders placed for it: one for each supplier.
struct ReorderPlaced {
    Reorder reorder;
    Orders placed;
};

/// Works out what to buy and orders just that, in one transaction. What has no supplier is not
/// ordered.
ReorderPlaced place_reorder(Context& context, const std::vector<WantedRun>& wanted,
                            const base::Date& wanted_by);

/// The rest of an order is not coming any more: it counts no longer as on order. Throws base::Error
/// (Kind::refused) when nothing is outstanding.
OrderView end_order(Context& context, std::int64_t number);

/// One order. Throws base::Error (Kind::bad_input) when there is none.
Orders order_numbered(store::Database& database, std::int64_t number, const base::Date& today);

/// Orders of which something is outstanding, or all there ever were; newest first.
Orders orders(store::Database& database, const base::Date& today, bool all);

} // namespace barrow::workshop
