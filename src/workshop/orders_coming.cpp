#include "workshop/orders_coming.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace barrow::workshop {

using base::Money;
using base::Rational;
using store::OrderLine;
using store::OrderStatus;

namespace {

template <typename Order>
auto line_of(Order& order, std::int64_t material) {
    return std::find_if(order.lines.begin(), order.lines.end(),
                        [&](const OrderLine& line) { return line.material_id == material; });
}

} // namespace

const store::SupplyOrder* OrdersComing::find(Fields& fields, std::int64_t number) {
    const auto known = orders_.find(number);
    if (known != orders_.end()) return &known->second;
    auto order = store::find_order(database_, number);
    if (!order) {
        fields.complain("order", fmt::format("there is no order {}", number),
                        "see them with: barrow order list");
        return nullptr;
    }
    if (order->status == OrderStatus::undone || order->status == OrderStatus::ended) {
        fields.complain("order",
                        fmt::format("order {} was {}", number,
                                    order->status == OrderStatus::ended ? "ended" : "taken back"),
                        fmt::format("see: barrow order show {}", number));
        return nullptr;
    }
    return &orders_.emplace(number, std::move(*order)).first->second;
}

std::int64_t OrdersComing::supplier(std::int64_t order) const {
    return orders_.at(order).supplier_id;
}

bool OrdersComing::has_line(std::int64_t order, std::int64_t material) const {
    const store::SupplyOrder& found = orders_.at(order);
    return line_of(found, material) != found.lines.end();
}

std::vector<OrderedLeft> OrdersComing::outstanding(std::int64_t order) const {
    std::vector<OrderedLeft> left;
    for (const OrderLine& line : orders_.at(order).lines)
        if (line.outstanding() > 0) left.push_back({line.material_id, line.outstanding()});
    return left;
}

std::optional<Money> OrdersComing::take(std::int64_t order, std::int64_t material,
                                        std::int64_t units) {
    OrderLine& line = *line_of(orders_.at(order), material);
    const std::int64_t before = line.received;
    line.received += units;
    if (!line.cost) return std::nullopt;
    const auto up_to = [&](std::int64_t come) {
        return base::times(*line.cost, Rational::of(come, line.units));
    };
    return up_to(line.received) - up_to(before);
}

} // namespace barrow::workshop
