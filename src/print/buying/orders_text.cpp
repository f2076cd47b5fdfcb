#include "print/buying/orders.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "print/buying/needs.hpp"
#include "print/text/words.hpp"
#include "print/write/terminal.hpp"
#include "workshop/shared/quantity_text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::print {
namespace {

using store::OrderStatus;
using workshop::OrderLineView;
using workshop::OrderView;

std::string units_of(const OrderLineView& view, std::int64_t units) {
    if (units == 0) return {};
    return workshop::units_text(view.material.form, view.material.bulk_unit == "g", units);
}

std::string state_text(const OrderView& view) {
    switch (view.order.status) {
    case OrderStatus::undone: return "taken back";
    case OrderStatus::received:
        return view.was_sent_back() ? "all received, some sent back" : "all received";
    case OrderStatus::ended: return "ended: the rest is not coming";
    case OrderStatus::open: return view.overdue ? "overdue" : "on its way";
    }
    throw base::broken("an order in no state");
}

std::string agreed_text(const OrderView& view, const base::Currency& currency) {
    return with_currency(view.agreed(), currency)
           + (view.agreed_is_whole() ? "" : " and what has no price");
}

Table order_table(const OrderView& view, const base::Currency& currency) {
    Table table({{"Code", Kind::label},
                 {"Material", Kind::text, true},
                 {"ordered", Kind::quantity},
                 {"received", Kind::quantity},
                 {"sent back", Kind::quantity},
                 {"still to come", Kind::quantity},
                 {"agreed", Kind::money},
                 {"paid so far", Kind::money}});
    const bool open = view.order.status == OrderStatus::open;
    for (const OrderLineView& line : view.lines)
        table.row({link(Link::To::material, line.material.code), line.material.name,
                   units_of(line, line.line.units), units_of(line, line.line.received),
                   units_of(line, line.sent_back),
                   open ? units_of(line, line.line.outstanding()) : "",
                   line.line.cost ? money(*line.line.cost, currency) : Cell("no price"),
                   line.line.received > 0 ? money(line.line.paid, currency) : Cell()});
    return table;
}

} // namespace

Blocks blocks(const workshop::Orders& orders) {
    Blocks blocks("Orders");
    if (orders.orders.empty()) {
        blocks.add(Text{"Nothing is on order."});
        return blocks;
    }
    Table table({{"Order", Kind::count},
                 {"Placed", Kind::date},
                 {"Supplier", Kind::text, true},
                 {"Expected", Kind::date},
                 {"Lines", Kind::count},
                 {"still to come", Kind::count},
                 {"Agreed", Kind::money},
                 {"", Kind::text, false, "Status"}});
    for (const OrderView& view : orders.orders) {
        const auto waiting =
            std::count_if(view.lines.begin(), view.lines.end(),
                          [](const OrderLineView& line) { return line.line.outstanding() > 0; });
        const bool open = view.order.status == OrderStatus::open;
        table.row({link(Link::To::order, view.order.number), date(view.order.placed.made_on),
                   view.supplier.name, date(view.order.expected_on),
                   count(static_cast<std::int64_t>(view.lines.size())),
                   open ? count(waiting) : Cell(), money(view.agreed(), orders.settings.currency),
                   state_text(view)});
    }
    blocks.add(table);
    return blocks;
}

std::string screen(const workshop::Orders& orders) {
    return terminal(blocks(orders));
}

Blocks blocks(const OrderView& view, const workshop::Settings& settings) {
    const store::Posting& placed = view.order.placed;
    Blocks blocks(fmt::format("Order {}", view.order.number));
    blocks.add(Heading{fmt::format("Order {} with {} ({}): {}.", view.order.number,
                                   view.supplier.name, view.supplier.code, state_text(view))});
    blocks.under(
        Text{fmt::format("Placed {} (entry {}), expected {}.", base::to_text(placed.made_on),
                         placed.id, base::to_text(view.order.expected_on))});
    blocks.under(Text{placed.note});
    blocks.add(order_table(view, settings.currency));
    blocks.add(Text{fmt::format("Agreed {} in all, before freight and tax.",
                                agreed_text(view, settings.currency))});
    if (view.was_sent_back())
        blocks.under(Text{"What was sent back is no longer on order. To have it again, place a new "
                          "order."});
    if (view.order.status == OrderStatus::open)
        blocks.under(
            Text{fmt::format("When it comes: barrow receive --order {}", view.order.number)});
    return blocks;
}

std::string screen(const OrderView& view, const workshop::Settings& settings) {
    return terminal(blocks(view, settings));
}

Blocks blocks(const workshop::ReorderPlaced& placed) {
    Blocks own = blocks(placed.reorder);
    bool first = true;
    for (const OrderView& view : placed.placed.orders) {
        const Text text{
            fmt::format("Order {} is placed with {} (entry {}): {}, expected {}, {}.",
                        view.order.number, view.supplier.name, view.order.placed.id,
                        base::counted(static_cast<long long>(view.lines.size()), "line"),
                        base::to_text(view.order.expected_on),
                        agreed_text(view, placed.placed.settings.currency))};
        if (first)
            own.add(text);
        else
            own.under(text);
        first = false;
    }
    return own;
}

std::string screen(const workshop::ReorderPlaced& placed) {
    return terminal(blocks(placed));
}

} // namespace barrow::print
