#include "supply/reorder.hpp"

#include <algorithm>

namespace barrow::supply {
namespace {

std::int64_t below_level(const Supply& supply) {
    return std::max<std::int64_t>(0, supply.reorder_level - (supply.on_hand - supply.used));
}

OrderLine line_for(const Supply& supply) {
    OrderLine line;
    line.supply = supply;
    line.for_journals = supply.short_of;
    line.for_level = below_level(supply);
    line.packs = (net_need(supply) + supply.pack_units - 1) / supply.pack_units;
    line.units = line.packs * supply.pack_units;
    if (supply.pack_price) line.cost = base::times(*supply.pack_price, base::Rational(line.packs));
    return line;
}

SupplierOrder& order_from(std::vector<SupplierOrder>& orders, const Supply& supply) {
    for (SupplierOrder& order : orders)
        if (order.supplier == supply.supplier) return order;
    SupplierOrder order;
    order.supplier = supply.supplier;
    order.supplier_name = supply.supplier_name;
    orders.push_back(order);
    return orders.back();
}

} // namespace

std::int64_t net_need(const Supply& supply) {
    return std::max<std::int64_t>(0, supply.short_of + below_level(supply) - supply.on_order);
}

std::vector<SupplierOrder> orders_for(const std::vector<Supply>& supplies, const base::Date& wanted,
                                      const base::Date& today) {
    std::vector<SupplierOrder> orders;
    for (const Supply& supply : supplies) {
        const OrderLine line = line_for(supply);
        if (line.packs == 0) continue;
        SupplierOrder& order = order_from(orders, supply);
        order.order_by = base::plus_days(wanted, -supply.lead_days);
        order.late = order.order_by < today;
        order.total += line.cost.value_or(base::Money());
        order.total_is_whole = order.total_is_whole && line.cost.has_value();
        order.lines.push_back(line);
    }
    std::stable_sort(orders.begin(), orders.end(), [](const auto& a, const auto& b) {
        return std::pair(a.supplier.empty(), a.supplier)
               < std::pair(b.supplier.empty(), b.supplier);
    });
    return orders;
}

} // namespace barrow::supply
