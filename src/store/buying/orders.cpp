#include "store/buying/orders.hpp"

#include "base/error.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

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
    SQLite::Statement query(database.sql(),
                            "SELECT r.material_id, lot.posting_id, "
                            "lot.quantity / (unit_width * unit_height), cost FROM order_receipt r "
                            "JOIN lot ON lot.id = lot_id WHERE order_id = ? ORDER BY lot_id");
    query.bind(1, order);
    while (query.executeStep()) {
        if (!stands(database, query.getColumn(1).getInt64())) continue;
        const std::int64_t material = query.getColumn(0).getInt64();
        for (OrderLine& line : lines) {
            if (line.material_id != material) continue;
            line.received += query.getColumn(2).getInt64();
            line.paid += base::Money::of_minor(query.getColumn(3).getInt64());
        }
    }
}

std::vector<OrderLine> read_lines(Database& database, std::int64_t order) {
    std::vector<OrderLine> lines;
    SQLite::Statement query(database.sql(), "SELECT material_id, units, cost FROM order_line "
                                            "JOIN material ON material.id = material_id "
                                            "WHERE order_id = ? ORDER BY code");
    query.bind(1, order);
    while (query.executeStep()) {
        OrderLine& line = lines.emplace_back();
        line.material_id = query.getColumn(0).getInt64();
        line.units = query.getColumn(1).getInt64();
        if (!query.getColumn(2).isNull())
            line.cost = base::Money::of_minor(query.getColumn(2).getInt64());
    }
    read_receipts(database, order, lines);
    return lines;
}

bool is_ended(Database& database, std::int64_t order) {
    SQLite::Statement query(database.sql(), "SELECT posting_id FROM order_end WHERE order_id = ?");
    query.bind(1, order);
    while (query.executeStep())
        if (stands(database, query.getColumn(0).getInt64())) return true;
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

std::vector<SupplyOrder> orders_where(Database& database, const std::string& where,
                                      std::optional<std::int64_t> value = std::nullopt) {
    std::vector<SupplyOrder> orders;
    SQLite::Statement query(database.sql(),
                            "SELECT id, posting_id, supplier_id, expected_on FROM supply_order "
                                + where);
    if (value) query.bind(1, *value);
    while (query.executeStep()) {
        SupplyOrder& order = orders.emplace_back();
        order.number = query.getColumn(0).getInt64();
        order.placed = posting_by_id(database, query.getColumn(1).getInt64()).value();
        order.supplier_id = query.getColumn(2).getInt64();
        order.expected_on = base::read_date(query.getColumn(3).getString(), "order expected_on");
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
    SQLite::Statement statement(
        database.sql(),
        "INSERT INTO supply_order (posting_id, supplier_id, expected_on) VALUES (?, ?, ?)");
    statement.bind(1, order.placed.id);
    statement.bind(2, order.supplier_id);
    statement.bind(3, base::to_text(order.expected_on));
    statement.exec();
    const std::int64_t number = database.sql().getLastInsertRowid();
    for (const OrderLine& line : order.lines) {
        SQLite::Statement row(
            database.sql(),
            "INSERT INTO order_line (order_id, material_id, units, cost) VALUES (?, ?, ?, ?)");
        row.bind(1, number);
        row.bind(2, line.material_id);
        row.bind(3, line.units);
        if (line.cost) row.bind(4, line.cost->minor());
        row.exec();
    }
    return number;
}

void add_order_receipt(Database& database, std::int64_t lot, std::int64_t order,
                       std::int64_t material) {
    SQLite::Statement statement(
        database.sql(),
        "INSERT INTO order_receipt (lot_id, order_id, material_id) VALUES (?, ?, ?)");
    statement.bind(1, lot);
    statement.bind(2, order);
    statement.bind(3, material);
    statement.exec();
}

void add_order_end(Database& database, std::int64_t posting, std::int64_t order) {
    SQLite::Statement statement(database.sql(),
                                "INSERT INTO order_end (posting_id, order_id) VALUES (?, ?)");
    statement.bind(1, posting);
    statement.bind(2, order);
    statement.exec();
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
    SQLite::Statement query(database.sql(),
                            "SELECT r.material_id, m.posting_id, "
                            "m.quantity / (unit_width * unit_height) FROM order_receipt r "
                            "JOIN lot ON lot.id = r.lot_id JOIN movement m ON m.from_holder = "
                            "lot.id AND m.kind = 'return' WHERE order_id = ?");
    query.bind(1, order);
    while (query.executeStep())
        if (stands(database, query.getColumn(1).getInt64()))
            materials[query.getColumn(0).getInt64()] += query.getColumn(2).getInt64();
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
    SQLite::Statement query(
        database.sql(), "SELECT 1, id FROM supply_order WHERE posting_id = ?1 "
                        "UNION SELECT 0, order_id FROM order_end WHERE posting_id = ?1 "
                        "UNION SELECT 0, order_id FROM lot JOIN order_receipt ON lot_id = lot.id "
                        "WHERE lot.posting_id = ?1");
    query.bind(1, posting);
    while (query.executeStep()) {
        const std::int64_t number = query.getColumn(1).getInt64();
        if (query.getColumn(0).getInt() == 1)
            orders.begins = number;
        else
            orders.follows.push_back(number);
    }
    return orders;
}

std::vector<Posting> postings_following(Database& database, std::int64_t order) {
    std::vector<Posting> postings;
    SQLite::Statement query(database.sql(),
                            "SELECT posting_id FROM order_end WHERE order_id = ?1 "
                            "UNION SELECT lot.posting_id FROM order_receipt "
                            "JOIN lot ON lot.id = lot_id WHERE order_id = ?1 ORDER BY 1");
    query.bind(1, order);
    while (query.executeStep()) {
        const std::int64_t posting = query.getColumn(0).getInt64();
        if (stands(database, posting)) postings.push_back(posting_by_id(database, posting).value());
    }
    return postings;
}

} // namespace barrow::store
