#include "workshop/buying/orders.hpp"

#include "base/error.hpp"
#include "workshop/buying/reorder_in_transaction.hpp"
#include "workshop/stock/bought.hpp"
#include "workshop/stock/catalogue.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::workshop {

using base::Money;

namespace {

OrderView view_of(store::Database& database, store::SupplyOrder order, const base::Date& today) {
    OrderView view;
    view.supplier = store::supplier_by_id(database, order.supplier_id).value();
    auto back = store::sent_back(database, order.number);
    for (const store::OrderLine& line : order.lines)
        view.lines.push_back({line, store::material_by_id(database, line.material_id).value(),
                              back[line.material_id]});
    view.overdue = order.status == store::OrderStatus::open && order.expected_on < today;
    view.order = std::move(order);
    return view;
}

store::SupplyOrder order_called(store::Database& database, std::int64_t number) {
    auto order = store::find_order(database, number);
    if (!order)
        throw base::bad_input("order", fmt::format("there is no order {}", number),
                              "see them with: barrow order list --all");
    return std::move(*order);
}

/// A line as a row says it; the problems of the row are gathered.
store::OrderLine read_line(store::Database& database, const Settings& settings, const Row& row,
                           std::vector<base::Problem>& problems) {
    Fields fields(row, problems);
    store::OrderLine line;
    const auto material = read_material(fields, database);
    if (!material) return line;
    const Bought bought = read_bought(fields, *material);
    line.material_id = material->id;
    line.units = bought.units;
    if (fields.has("cost") && fields.has("price"))
        fields.complain("cost", "is given beside price",
                        "say either cost (of all) or price (of a pack)");
    line.cost = fields.money("cost", settings.currency);
    auto price = fields.money("price", settings.currency);
    if (!price) price = material->pack_price;
    if (!line.cost && price && bought.packs) line.cost = base::times(*price, *bought.packs);
    return line;
}

void refuse_twice(const WantedOrder& wanted, const std::vector<store::OrderLine>& lines,
                  std::vector<base::Problem>& problems) {
    for (std::size_t i = 0; i < lines.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
            if (lines[i].material_id != 0 && lines[i].material_id == lines[j].material_id) {
                Fields(wanted.rows[i], problems)
                    .complain("material", "is asked for twice", "put it in one line");
                break;
            }
}

OrderView place(Context& context, const Settings& settings, const WantedOrder& wanted) {
    store::Database& database = context.database;
    const store::Supplier supplier = supplier_called(database, wanted.supplier, "supplier");
    store::SupplyOrder order;
    order.supplier_id = supplier.id;
    const base::Date placed = wanted.placed.value_or(context.today);
    order.expected_on = wanted.expected.value_or(base::plus_days(placed, supplier.lead_days));
    std::vector<base::Problem> problems;
    if (placed > context.today)
        problems.push_back({"--date", "lies in the future", "book an order when it is placed"});
    if (order.expected_on < placed)
        problems.push_back({"--expected", "lies before the day the order is placed", ""});
    if (wanted.rows.empty())
        problems.push_back({"order", "nothing is asked for", "name materials: SM-REED=20"});
    for (const Row& row : wanted.rows)
        order.lines.push_back(read_line(database, settings, row, problems));
    refuse_twice(wanted, order.lines, problems);
    throw_if_any(problems);
    order.placed.id = post(context, "order", placed);
    const std::int64_t number = store::add_order(database, order);
    return view_of(database, order_called(database, number), context.today);
}

/// Rows that ask for just what is to be ordered, at the prices reckoned with.
std::vector<Row> rows_for(const supply::SupplierOrder& order, const base::Currency& currency) {
    std::vector<Row> rows;
    for (const supply::OrderLine& line : order.lines) {
        Row row;
        row.where = line.supply.material;
        row.fields = {{"material", line.supply.material}, {"packs", std::to_string(line.packs)}};
        if (line.cost) row.fields["cost"] = base::to_text(*line.cost, currency);
        rows.push_back(std::move(row));
    }
    return rows;
}

} // namespace

Money OrderView::agreed() const {
    Money sum;
    for (const OrderLineView& view : lines) sum += view.line.cost.value_or(Money());
    return sum;
}

bool OrderView::agreed_is_whole() const {
    return std::all_of(lines.begin(), lines.end(),
                       [](const OrderLineView& view) { return view.line.cost.has_value(); });
}

bool OrderView::was_sent_back() const {
    return std::any_of(lines.begin(), lines.end(),
                       [](const OrderLineView& view) { return view.sent_back > 0; });
}

const std::vector<std::string>& order_fields() {
    static const std::vector<std::string> fields = {"material", "units", "packs", "cost", "price"};
    return fields;
}

OrderView place_order(Context& context, const WantedOrder& wanted) {
    return writing(context,
                   [&] { return place(context, read_settings(context.database), wanted); });
}

ReorderPlaced place_reorder(Context& context, const std::vector<WantedRun>& wanted,
                            const base::Date& wanted_by) {
    return writing(context, [&] {
        ReorderPlaced result;
        result.reorder = reorder_in_transaction(context.database, wanted, wanted_by, context.today);
        result.placed.settings = result.reorder.settings;
        for (const supply::SupplierOrder& order : result.reorder.orders) {
            if (order.supplier.empty()) continue;
            WantedOrder one;
            one.supplier = order.supplier;
            one.rows = rows_for(order, result.reorder.settings.currency);
            result.placed.orders.push_back(place(context, result.placed.settings, one));
        }
        return result;
    });
}

OrderView end_order(Context& context, std::int64_t number) {
    return writing(context, [&] {
        store::Database& database = context.database;
        const store::SupplyOrder order = order_called(database, number);
        if (order.status != store::OrderStatus::open)
            throw base::refused(fmt::format("nothing is outstanding of order {}: it is {}", number,
                                            store::name_of(order.status)),
                                fmt::format("see: barrow order show {}", number));
        store::add_order_end(database, post(context, "order end", context.today), number);
        return view_of(database, order_called(database, number), context.today);
    });
}

Orders order_numbered(store::Database& database, std::int64_t number, const base::Date& today) {
    return reading(database, [&] {
        Orders one;
        one.settings = read_settings(database);
        one.orders.push_back(view_of(database, order_called(database, number), today));
        return one;
    });
}

Orders orders(store::Database& database, const base::Date& today, bool all) {
    return reading(database, [&] {
        Orders result;
        result.settings = read_settings(database);
        for (store::SupplyOrder& order : store::all_orders(database))
            if (all || order.status == store::OrderStatus::open)
                result.orders.push_back(view_of(database, std::move(order), today));
        return result;
    });
}

} // namespace barrow::workshop
