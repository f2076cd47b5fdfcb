#include "store/buying/orders.hpp"

#include "base/error.hpp"
#include "store/file/rows.hpp"

#include <algorithm>
#include <array>
#include <tuple>

namespace barrow::store {
namespace {

struct NamedOrderStatus {
    OrderStatus status;
    std::string_view name;
};
constexpr std::array<NamedOrderStatus, 4> order_statuses = {{{OrderStatus::undone, "undone"},
                                                             {OrderStatus::open, "open"},
                                                             {OrderStatus::received, "received"},
                                                             {OrderStatus::ended, "ended"}}};

/// Adds what came, from lots whose postings stand.
void read_receipts(Database& database, std::int64_t order, std::vector<OrderLine>& lines) {
    Query query(database,
                "SELECT lot.posting_id, r.material_id, "
                "lot.quantity / (unit_width * unit_height), cost FROM order_receipt r "
                "JOIN lot ON lot.id = lot_id WHERE order_id = ? ORDER BY lot_id",
                order);
    while (query.next()) {
        if (!stands(database, query.number())) continue;
        const std::int64_t material = query.number();
        const std::int64_t units = query.number();
        const base::Money cost = query.money();
        for (OrderLine& line : lines) {
            if (line.material_id != material) continue;
            line.received += units;
            line.paid += cost;
        }
    }
}

std::vector<OrderLine> read_lines(Database& database, std::int64_t order) {
    std::vector<OrderLine> lines;
    Query query(database,
                "SELECT material_id, units, cost FROM order_line "
                "JOIN material ON material.id = material_id "
                "WHERE order_id = ? ORDER BY code",
                order);
    while (query.next()) {
        OrderLine& line = lines.emplace_back();
        line.material_id = query.number();
        line.units = query.number();
        line.cost = query.maybe_money();
    }
    read_receipts(database, order, lines);
    return lines;
}

bool is_ended(Database& database, std::int64_t order) {
    Query query(database, "SELECT posting_id FROM order_end WHERE order_id = ?", order);
    while (query.next())
        if (stands(database, query.number())) return true;
    return false;
}

OrderStatus status_of(Database& database, const SupplyOrder& order) {
    if (!stands(database, order.placed.id)) return OrderStatus::undone;
    const bool all_came =
        std::all_of(order.lines.begin(), order.lines.end(),
                    [](const OrderLine& line) { return line.outstanding() == 0; });
    if (all_came) return OrderStatus::received;
    return is_ended(database, order.number) ? OrderStatus::ended : OrderStatus::open;
}

template <typename... Values>
std::vector<SupplyOrder> orders_where(Database& database, const std::string& where,
                                      const Values&... values) {
    std::vector<SupplyOrder> orders;
    Query query(database,
                "SELECT id, posting_id, supplier_id, expected_on FROM supply_order " + where,
                values...);
    while (query.next()) {
        SupplyOrder& order = orders.emplace_back();
        order.number = query.number();
        order.placed = posting_by_id(database, query.number()).value();
        order.supplier_id = query.number();
        order.expected_on = query.date("order expected_on");
        order.lines = read_lines(database, order.number);
        order.status = status_of(database, order);
    }
    return orders;
}

} // namespace

std::string_view name_of(OrderStatus status) {
    for (const NamedOrderStatus& named : order_statuses)
        if (named.status == status) return named.name;
    throw base::broken("a status of an order without a name");
}

std::int64_t add_order(Database& database, const SupplyOrder& order) {
    const std::int64_t number =
        insert(database,
               "INSERT INTO supply_order (posting_id, supplier_id, expected_on) VALUES (?, ?, ?)",
               order.placed.id, order.supplier_id, order.expected_on);
    for (const OrderLine& line : order.lines) {
        execute(database,
                "INSERT INTO order_line (order_id, material_id, units, cost) VALUES (?, ?, ?, ?)",
                number, line.material_id, line.units, line.cost);
    }
    return number;
}

void add_order_receipt(Database& database, std::int64_t lot, std::int64_t order,
                       std::int64_t material) {
    execute(database, "INSERT INTO order_receipt (lot_id, order_id, material_id) VALUES (?, ?, ?)",
            lot, order, material);
}

void add_order_end(Database& database, std::int64_t posting, std::int64_t order) {
    execute(database, "INSERT INTO order_end (posting_id, order_id) VALUES (?, ?)", posting, order);
}

std::optional<SupplyOrder> find_order(Database& database, std::int64_t number) {
    auto found = orders_where(database, "WHERE id = ?", number);
    if (found.empty()) return std::nullopt;
    return std::move(found.front());
}

std::vector<SupplyOrder> all_orders(Database& database) {
    return orders_where(database, "ORDER BY id DESC");
}

std::map<std::int64_t, std::int64_t> sent_back(Database& database, std::int64_t order) {
    std::map<std::int64_t, std::int64_t> materials;
    Query query(database,
                "SELECT m.posting_id, r.material_id, "
                "m.quantity / (unit_width * unit_height) FROM order_receipt r "
                "JOIN lot ON lot.id = r.lot_id JOIN movement m ON m.from_holder = "
                "lot.id AND m.kind = 'return' WHERE order_id = ?",
                order);
    while (query.next())
        if (stands(database, query.number())) {
            std::int64_t& units = materials[query.number()];
            units += query.number();
        }
    return materials;
}

std::map<std::int64_t, std::vector<OnOrder>> on_order(Database& database) {
    std::map<std::int64_t, std::vector<OnOrder>> materials;
    for (const SupplyOrder& order : all_orders(database)) {
        if (order.status != OrderStatus::open) continue;
        for (const OrderLine& line : order.lines)
            if (line.outstanding() > 0)
                materials[line.material_id].push_back(
                    {order.number, order.expected_on, line.outstanding()});
    }
    for (auto& [material, waiting] : materials)
        std::sort(waiting.begin(), waiting.end(), [](const OnOrder& a, const OnOrder& b) {
            return std::tie(a.expected_on, a.order) < std::tie(b.expected_on, b.order);
        });
    return materials;
}

Belonging orders_of_posting(Database& database, std::int64_t posting) {
    Belonging orders;
    Query query(database,
                "SELECT 1, id FROM supply_order WHERE posting_id = ?1 "
                "UNION SELECT 0, order_id FROM order_end WHERE posting_id = ?1 "
                "UNION SELECT 0, order_id FROM lot JOIN order_receipt ON lot_id = lot.id "
                "WHERE lot.posting_id = ?1",
                posting);
    while (query.next()) {
        const bool begins = query.yes();
        const std::int64_t number = query.number();
        if (begins)
            orders.begins = number;
        else
            orders.follows.push_back(number);
    }
    return orders;
}

std::vector<Posting> postings_following(Database& database, std::int64_t order) {
    std::vector<Posting> postings;
    Query query(database,
                "SELECT posting_id FROM order_end WHERE order_id = ?1 "
                "UNION SELECT lot.posting_id FROM order_receipt "
                "JOIN lot ON lot.id = lot_id WHERE order_id = ?1 ORDER BY 1",
                order);
    while (query.next()) {
        const std::int64_t posting = query.number();
        if (stands(database, posting)) postings.push_back(posting_by_id(database, posting).value());
    }
    return postings;
}

} // namespace barrow::store
