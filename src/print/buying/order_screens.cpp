#include "print/buying/order_screens.hpp"

#include "base/text.hpp"
#include "print/text/screens.hpp"
#include "print/text/table.hpp"
#include "print/text/words.hpp"
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
        return view.was_sent_back() ? "all has come, some went back" : "all has come";
    case OrderStatus::ended: return "ended: the rest is not coming";
    case OrderStatus::open: return view.overdue ? "overdue" : "on its way";
    }
    throw base::broken("an order in no state");
}

std::string agreed_text(const OrderView& view, const base::Currency& currency) {
    return with_currency(view.agreed(), currency)
           + (view.agreed_is_whole() ? "" : " and what has no price");
}

} // namespace

std::string screen(const workshop::Orders& orders) {
    if (orders.orders.empty()) return "Nothing is on order.\n";
    Table table({{"Order", Align::right},
                 {"Placed"},
                 {"Supplier", Align::left, true},
                 {"Expected"},
                 {"Lines", Align::right},
                 {"still to come", Align::right},
                 {"Agreed", Align::right},
                 {""}});
    for (const OrderView& view : orders.orders) {
        const auto waiting =
            std::count_if(view.lines.begin(), view.lines.end(),
                          [](const OrderLineView& line) { return line.line.outstanding() > 0; });
        const bool open = view.order.status == OrderStatus::open;
        table.row({std::to_string(view.order.number), base::to_text(view.order.placed.made_on),
                   view.supplier.name, base::to_text(view.order.expected_on),
                   std::to_string(view.lines.size()), open ? std::to_string(waiting) : "",
                   base::to_text(view.agreed(), orders.settings.currency), state_text(view)});
    }
    return table.text();
}

std::string screen(const OrderView& view, const workshop::Settings& settings) {
    const store::Posting& placed = view.order.placed;
    std::string text = fmt::format(
        "Order {} with {} ({}): {}.\nPlaced {} (entry {}), expected {}.\n", view.order.number,
        view.supplier.name, view.supplier.code, state_text(view), base::to_text(placed.made_on),
        placed.id, base::to_text(view.order.expected_on));
    if (!placed.note.empty()) text += wrapped(placed.note, page_width, 0) + "\n";
    text += "\n";
    Table table({{"Code"},
                 {"Material", Align::left, true},
                 {"asked for", Align::right},
                 {"has come", Align::right},
                 {"sent back", Align::right},
                 {"still to come", Align::right},
                 {"agreed", Align::right},
                 {"paid so far", Align::right}});
    for (const OrderLineView& line : view.lines)
        table.row(
            {line.material.code, line.material.name, units_of(line, line.line.units),
             units_of(line, line.line.received), units_of(line, line.sent_back),
             view.order.status == OrderStatus::open ? units_of(line, line.line.outstanding()) : "",
             line.line.cost ? base::to_text(*line.line.cost, settings.currency) : "no price",
             line.line.received > 0 ? base::to_text(line.line.paid, settings.currency) : ""});
    text += table.text();
    text += fmt::format("\nAgreed {} in all, before freight and tax.\n",
                        agreed_text(view, settings.currency));
    if (view.was_sent_back())
        text += "What was sent back is not on order any more: place anew what is to come again.\n";
    if (view.order.status == OrderStatus::open)
        text += fmt::format("When it comes: barrow receive --order {}\n", view.order.number);
    return text;
}

std::string screen(const workshop::ReorderPlaced& placed) {
    std::string text = screen(placed.reorder);
    if (placed.placed.orders.empty()) return text;
    text += "\n";
    for (const OrderView& view : placed.placed.orders)
        text += fmt::format("Order {} is placed with {} (entry {}): {}, expected {}, {}.\n",
                            view.order.number, view.supplier.name, view.order.placed.id,
                            base::counted(static_cast<long long>(view.lines.size()), "line"),
                            base::to_text(view.order.expected_on),
                            agreed_text(view, placed.placed.settings.currency));
    return text;
}

} // namespace barrow::print
