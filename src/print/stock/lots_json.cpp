#include "print/stock/lots.hpp"

#include "print/json/values.hpp"

namespace barrow::print {

std::string document(const workshop::Lots& lots) {
    Json document = begin("lots");
    document["currency"] = lots.settings.currency.code;
    document["lots"] = Json::array();
    for (const workshop::LotLine& line : lots.lines)
        document["lots"].push_back(
            {{"lot", line.there.lot.id},
             {"material", line.material},
             {"received_on", base::to_text(line.there.lot.received_on)},
             {"size", size_json(line.form, line.there.lot.unit)},
             {"received", units_number(line.form, line.received_units)},
             {"left", units_number(line.form, line.units)},
             {"cost", base::to_text(line.there.lot.cost, lots.settings.currency)},
             {"value", base::to_text(line.there.value, lots.settings.currency)},
             {"supplier", line.supplier},
             {"note", line.there.lot.note}});
    return finished(document);
}

} // namespace barrow::print
