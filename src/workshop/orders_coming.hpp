#pragma once

#include "base/money.hpp"
#include "store/orders.hpp"
#include "workshop/fields.hpp"

#include <cstdint>
#include <map>
#include <optional>
#include <vector>

namespace barrow::workshop {

/// What is still to come of a material.
struct OrderedLeft {
    std::int64_t material_id = 0;
    std::int64_t units = 0;
};

/// Open orders while a delivery is read: what one row takes, the next does not find any more.
class OrdersComing {
public:
    explicit OrdersComing(store::Database& database) : database_(database) {}

    /// The order that a row names; nothing (and a problem of the row) when there is none, or when
    /// it was taken back or ended.
    const store::SupplyOrder* find(Fields& fields, std::int64_t number);

    // Of an order that was found:
    std::int64_t supplier(std::int64_t order) const;
    bool has_line(std::int64_t order, std::int64_t material) const;
    std::vector<OrderedLeft> outstanding(std::int64_t order) const;
    /// Counts units as come, and gives their part of what was agreed for the line (nothing when
    /// nothing was): what its cost comes to up to and with these, less what it came to before them,
    /// each rounded once. So all parts add up to what was agreed.
    std::optional<base::Money> take(std::int64_t order, std::int64_t material, std::int64_t units);

private:
    store::Database& database_;
    std::map<std::int64_t, store::SupplyOrder> orders_;
};

} // namespace barrow::workshop
