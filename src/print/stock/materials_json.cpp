#include "print/stock/materials.hpp"

#include "print/json/values.hpp"
#include "workshop/shared/quantity_text.hpp"

namespace barrow::print {

std::string document(const std::vector<store::Supplier>& suppliers) {
    Json document = begin("suppliers");
    document["suppliers"] = Json::array();
    for (const store::Supplier& supplier : suppliers)
        document["suppliers"].push_back({{"code", supplier.code},
                                         {"name", supplier.name},
                                         {"lead_days", supplier.lead_days},
                                         {"note", supplier.note}});
    return finished(document);
}

std::string document(const std::vector<workshop::MaterialLine>& materials,
                     const workshop::Settings& settings) {
    Json document = begin("materials");
    document["currency"] = settings.currency.code;
    document["materials"] = Json::array();
    for (const workshop::MaterialLine& line : materials) {
        const store::Material& m = line.material;
        const bool mass = m.bulk_unit == "g";
        document["materials"].push_back(
            {{"code", m.code},
             {"name", m.name},
             {"form", base::name_of(m.form)},
             {"size", size_json(m.form, m.fresh)},
             {"collection", m.collection},
             {"supplier", line.supplier},
             {"pack", units_number(m.form, m.pack_units)},
             {"unit", workshop::unit_word(m.form, mass)},
             {"pack_price",
              m.pack_price ? Json(base::to_text(*m.pack_price, settings.currency)) : Json(nullptr)},
             {"pattern", store::name_of(m.pattern)},
             {"grain", m.grain},
             {"reorder_at", units_number(m.form, m.reorder_level)},
             {"hazard", m.hazard},
             {"note", m.note}});
    }
    return finished(document);
}

} // namespace barrow::print
