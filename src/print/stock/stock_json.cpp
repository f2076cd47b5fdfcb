#include "print/stock/stock.hpp"

#include "print/json/values.hpp"
#include "workshop/shared/quantity_text.hpp"

namespace barrow::print {

std::string document(const workshop::Stock& stock) {
    Json document = begin("stock");
    document["currency"] = stock.settings.currency.code;
    document["materials"] = Json::array();
    const auto money = [&](base::Money amount) {
        return base::to_text(amount, stock.settings.currency);
    };
    for (const workshop::StockLine& line : stock.lines) {
        const store::Material& m = line.material;
        const bool mass = m.bulk_unit == "g";
        document["materials"].push_back({{"code", m.code},
                                         {"name", m.name},
                                         {"form", base::name_of(m.form)},
                                         {"on_hand", units_number(m.form, line.units)},
                                         {"unit", workshop::unit_word(m.form, mass)},
                                         {"reserved", units_number(m.form, line.reserved)},
                                         {"on_order", units_number(m.form, line.on_order)},
                                         {"value", money(line.shelf_value + line.offcut_value)},
                                         {"offcuts", line.offcuts},
                                         {"offcut_value", money(line.offcut_value)},
                                         {"quantity", quantity_number(m.form, line.quantity)},
                                         {"quantity_unit", quantity_unit(m.form, mass)},
                                         {"low", line.low}});
    }
    document["value"] = money(stock.value);
    return finished(document);
}

} // namespace barrow::print
