#include "print/buying/orders.hpp"

#include "print/json/values.hpp"
#include "workshop/shared/quantity_text.hpp"

namespace barrow::print {
namespace {

using workshop::OrderLineView;
using workshop::OrderView;

Json order_json(const OrderView& view, const base::Currency& currency) {
    Json json{{"order", view.order.number},
              {"supplier", view.supplier.code},
              {"placed", base::to_text(view.order.placed.made_on)},
              {"entry", view.order.placed.id},
              {"note", view.order.placed.note},
              {"expected", base::to_text(view.order.expected_on)},
              {"status", store::name_of(view.order.status)},
              {"overdue", view.overdue},
              {"agreed", base::to_text(view.agreed(), currency)},
              {"agreed_is_whole", view.agreed_is_whole()},
              {"lines", Json::array()}};
    for (const OrderLineView& line : view.lines) {
        const store::Material& m = line.material;
        json["lines"].push_back(
            {{"material", m.code},
             {"units", units_number(m.form, line.line.units)},
             {"unit", workshop::unit_word(m.form, m.bulk_unit == "g")},
             {"received", units_number(m.form, line.line.received)},
             {"sent_back", units_number(m.form, line.sent_back)},
             {"outstanding", units_number(m.form, line.line.outstanding())},
             {"cost",
              line.line.cost ? Json(base::to_text(*line.line.cost, currency)) : Json(nullptr)},
             {"paid", base::to_text(line.line.paid, currency)}});
    }
    return json;
}

} // namespace

std::string document(const workshop::Orders& orders) {
    Json document = begin("orders");
    document["currency"] = orders.settings.currency.code;
    document["orders"] = Json::array();
    for (const OrderView& view : orders.orders)
        document["orders"].push_back(order_json(view, orders.settings.currency));
    return finished(document);
}

std::string order_document(const OrderView& order, const workshop::Settings& settings) {
    Json document = begin("order");
    document["currency"] = settings.currency.code;
    document.update(order_json(order, settings.currency));
    return finished(document);
}

} // namespace barrow::print
