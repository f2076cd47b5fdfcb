#include "workshop/buying/delivery.hpp"

#include "store/buying/orders.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
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

/// The orders of the book, each read once in a delivery.
class OrdersOfTheBook : public OpenOrders {
public:
    explicit OrdersOfTheBook(store::Database& database) : database_(database) {}

    std::optional<Order> find(Fields& fields, std::int64_t number) override;

    bool has_line(std::int64_t order, std::int64_t material) const override {
        const store::SupplyOrder& found = orders_.at(order);
        return line_of(found, material) != found.lines.end();
    }

    std::vector<StillToCome> outstanding(std::int64_t order) const override {
        std::vector<StillToCome> left;
        for (const OrderLine& line : orders_.at(order).lines)
            if (line.outstanding() > 0) left.push_back({line.material_id, line.outstanding()});
        return left;
    }

    std::optional<Money> take(std::int64_t order, std::int64_t material,
                              std::int64_t units) override;

    void came(std::int64_t lot, std::int64_t order, std::int64_t material) override {
        store::add_order_receipt(database_, lot, order, material);
    }

private:
    store::Database& database_;
    std::map<std::int64_t, store::SupplyOrder> orders_;
};

std::optional<OpenOrders::Order> OrdersOfTheBook::find(Fields& fields, std::int64_t number) {
    const auto known = orders_.find(number);
    if (known != orders_.end())
        return Order{known->second.supplier_id, known->second.placed.made_on};
    auto order = store::find_order(database_, number);
    if (!order) {
        fields.complain("order", fmt::format("there is no order {}", number),
                        "see them with: barrow order list");
        return std::nullopt;
    }
    if (order->status == OrderStatus::undone || order->status == OrderStatus::ended) {
        fields.complain("order",
                        fmt::format("order {} was {}", number,
                                    order->status == OrderStatus::ended ? "ended" : "taken back"),
                        fmt::format("see: barrow order show {}", number));
        return std::nullopt;
    }
    const store::SupplyOrder& kept = orders_.emplace(number, std::move(*order)).first->second;
    return Order{kept.supplier_id, kept.placed.made_on};
}

std::optional<Money> OrdersOfTheBook::take(std::int64_t order, std::int64_t material,
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

} // namespace

std::vector<Received> receive(Context& context, const std::vector<Row>& rows,
                              costing::ShareBy share_by) {
    OrdersOfTheBook orders(context.database);
    return receive(context, rows, share_by, orders);
}

} // namespace barrow::workshop
