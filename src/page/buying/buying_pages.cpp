#include "page/buying/buying_pages.hpp"

#include "base/error.hpp"
#include "page/making/wanted.hpp"
#include "print/buying/needs.hpp"
#include "print/buying/orders.hpp"
#include "print/stock/materials.hpp"
#include "print/text/words.hpp"
#include "workshop/buying/delivery.hpp"
#include "workshop/buying/orders.hpp"
#include "workshop/making/designs.hpp"
#include "workshop/stock/catalogue.hpp"

#include <fmt/format.h>

#include <charconv>

namespace barrow::page {
namespace {

std::int64_t order_in(const Visit& visit) {
    std::int64_t number = 0;
    const std::string& text = visit.code();
    std::from_chars(text.data(), text.data() + text.size(), number);
    return number; // 0 is no order: said so by the use case
}

base::Date wanted_day(const Visit& visit, const Values& values) {
    const std::string& typed = values.get("by");
    return typed.empty() ? visit.today() : base::read_date(typed, "by");
}

std::string needs_part(Visit& visit) {
    const Values& asked = visit.request.query;
    Form ask{"/buying", "Work it out"};
    ask.reads = true;
    ask.about = "What should be there, and by when? Without numbers: what is low.";
    for (const store::StoredDesign& design : workshop::list_designs(visit.database)) {
        Field field{"make." + design.code, design.name, Field::As::text,
                    asked.get("make." + design.code)};
        field.number = true;
        ask.fields.push_back(field);
    }
    ask.fields.push_back(
        {"by", "By", Field::As::date,
         asked.get("by").empty() ? base::to_text(visit.today()) : asked.get("by")});
    std::string text = html(ask);
    const auto needed =
        workshop::reorder(visit.database, runs_in(asked), wanted_day(visit, asked), visit.today());
    text += html_of(print::blocks(needed));
    if (!needed.orders.empty()) {
        Form place{"/buying/place", "Order it"};
        place.fields = {{"query", "", Field::As::hidden, write_form(asked)},
                        {"note", "Note", Field::As::text}};
        text += show(visit, place);
    }
    return text;
}

Response buying_page(Visit& visit) {
    std::string needs;
    try {
        needs = needs_part(visit);
    } catch (const base::Error& error) {
        needs = paragraph(error.what());
    }
    std::string body = section("What to order", needs);
    const auto orders = workshop::orders(visit.database, visit.today(), true);
    if (!orders.orders.empty()) body += section("Orders", html_of(print::blocks(orders)));
    const auto suppliers = workshop::list_suppliers(visit.database);
    std::string known = suppliers.empty() ? "" : html_of(print::blocks(suppliers));
    Form fresh{"/buying/supplier", "Keep it"};
    fresh.fields = {{"code", "Code", Field::As::text, "", "short: PELL", {}, true},
                    {"name", "Name", Field::As::text, "", "", {}, true},
                    {"lead_days", "Days until it comes", Field::As::text},
                    {"note", "Note", Field::As::text}};
    fresh.fields[2].number = true;
    body += section("Suppliers", known + show(visit, fresh));
    return answer(visit, Room::buying, "Buying", body);
}

Done place_orders(Visit& visit) {
    const Values asked = read_form(visit.fields.get("query"));
    const auto placed =
        workshop::place_reorder(visit.context, runs_in(asked), wanted_day(visit, asked));
    return {
        counted(static_cast<std::int64_t>(placed.placed.orders.size()), "order is", "orders are")
            + " placed. Send them to the suppliers.",
        "/buying"};
}

Done keep_supplier(Visit& visit) {
    workshop::keep_suppliers(visit.context, {row_of(visit.fields)});
    return {visit.fields.get("name") + " is kept.", "/buying"};
}

Response order_page(Visit& visit) {
    const auto found = workshop::order_numbered(visit.database, order_in(visit), visit.today());
    const workshop::OrderView& order = found.orders.front();
    const std::string at = fmt::format("/buying/order/{}", order.order.number);
    std::string body = html_of(print::blocks(order, found.settings));
    body += "<p>" + link_to(at + "/csv", "As a table for the supplier") + "</p>\n";
    Form came{at + "/came", "It came"};
    came.about = "Nothing written: all that is outstanding came.";
    came.fields = {
        {"material", "Only this material", Field::As::choice, "", "", {{"", "All of it"}}},
        {"units", "and of that", Field::As::text, "", "how many units"},
        {"freight", "Freight", Field::As::text},
        {"date", "Day it came", Field::As::date, base::to_text(visit.today())},
        {"note", "Note", Field::As::text}};
    for (const workshop::OrderLineView& line : order.lines)
        came.fields[0].choices.emplace_back(line.material.code,
                                            line.material.code + ": " + line.material.name);
    came.fields[1].number = came.fields[2].number = true;
    body += section("A parcel", show(visit, came));
    body +=
        section("Nothing more comes",
                show(visit, {at + "/end", "Cancel the rest", {{"note", "Why", Field::As::text}}}));
    return answer(visit, Room::buying, fmt::format("Order {}", order.order.number), body);
}

Done parcel(Visit& visit) {
    workshop::Row row = row_of(visit.fields);
    row.fields["order"] = std::to_string(order_in(visit));
    const auto came = workshop::receive(visit.context, {row}, costing::ShareBy::value);
    return {counted(static_cast<std::int64_t>(came.size()), "lot is", "lots are") + " booked in.",
            fmt::format("/buying/order/{}", order_in(visit))};
}

Done end_this(Visit& visit) {
    workshop::end_order(visit.context, order_in(visit));
    return {"The rest is cancelled.", fmt::format("/buying/order/{}", order_in(visit))};
}

Response order_csv(Visit& visit) {
    const auto found = workshop::order_numbered(visit.database, order_in(visit), visit.today());
    return download(fmt::format("order-{}.csv", order_in(visit)), "text/csv; charset=utf-8",
                    print::csv(found));
}

Response supplier_page(Visit& visit) {
    const store::Supplier supplier =
        workshop::supplier_called(visit.database, visit.code(), "supplier");
    std::string text = paragraph(fmt::format("Code {}. Delivers in {}.", supplier.code,
                                             counted(supplier.lead_days, "day", "days")));
    if (!supplier.note.empty()) text += paragraph(supplier.note);
    return answer(visit, Room::buying, supplier.name, text);
}

} // namespace

std::vector<Place> buying_places() {
    return {{"/buying", buying_page},
            {"/buying/place", nullptr, place_orders, buying_page},
            {"/buying/supplier", nullptr, keep_supplier, buying_page},
            {"/buying/supplier/*", supplier_page},
            {"/buying/order/*", order_page},
            {"/buying/order/*/came", nullptr, parcel, order_page},
            {"/buying/order/*/end", nullptr, end_this, order_page},
            {"/buying/order/*/csv", order_csv}};
}

} // namespace barrow::page
