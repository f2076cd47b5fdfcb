#include "print/buying/orders.hpp"

#include "print/csv/csv_text.hpp"
#include "workshop/shared/quantity_text.hpp"

namespace barrow::print {

using workshop::OrderLineView;
using workshop::OrderView;

std::string csv(const workshop::Orders& orders) {
    CsvText text({"order", "supplier", "placed", "expected", "status", "material", "name", "units",
                  "unit", "received", "sent_back", "outstanding", "cost"});
    for (const OrderView& view : orders.orders)
        for (const OrderLineView& line : view.lines) {
            const store::Material& m = line.material;
            const auto units = [&](std::int64_t count) {
                return CsvCell::number(m.form == base::Form::bulk
                                           ? workshop::thousandths_text(count)
                                           : std::to_string(count));
            };
            text.row(
                {CsvCell::number(std::to_string(view.order.number)), view.supplier.code,
                 base::to_text(view.order.placed.made_on), base::to_text(view.order.expected_on),
                 std::string(store::name_of(view.order.status)), m.code, m.name,
                 units(line.line.units), workshop::unit_word(m.form, m.bulk_unit == "g"),
                 units(line.line.received), units(line.sent_back), units(line.line.outstanding()),
                 CsvCell::number(line.line.cost
                                     ? base::to_text(*line.line.cost, orders.settings.currency)
                                     : "")});
        }
    return text.text();
}

} // namespace barrow::print
