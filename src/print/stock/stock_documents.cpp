#include "print/json/json_documents.hpp"
#include "print/json/values.hpp"

#include "workshop/shared/quantity_text.hpp"

namespace barrow::print {
namespace {

using base::Form;

std::string units_unit(Form form, bool mass) {
    return workshop::unit_word(form, mass);
}

} // namespace

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
                                         {"unit", units_unit(m.form, mass)},
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

std::string document(const workshop::OffcutBox& box) {
    Json document = begin("offcuts");
    document["currency"] = box.settings.currency.code;
    document["offcuts"] = Json::array();
    for (const workshop::OffcutLine& line : box.lines)
        document["offcuts"].push_back(
            {{"code", line.there.offcut.code},
             {"material", line.material},
             {"form", base::name_of(line.form)},
             {"size", size_json(line.form, line.there.offcut.size)},
             {"value", base::to_text(line.there.value, box.settings.currency)},
             {"kept_on", base::to_text(line.there.offcut.kept_on)},
             {"age_days", line.age_days},
             {"place", line.there.offcut.place}});
    document["value"] = base::to_text(box.value, box.settings.currency);
    return finished(document);
}

std::string document(const workshop::ShopValue& value) {
    Json document = begin("value");
    document["currency"] = value.settings.currency.code;
    const auto put = [&](const char* name, base::Money amount) {
        document[name] = base::to_text(amount, value.settings.currency);
    };
    put("received", value.received);
    put("on_shelf", value.on_shelf);
    put("in_offcuts", value.in_offcuts);
    put("in_work", value.in_work);
    put("in_journals", value.in_journals);
    put("sold", value.sold);
    put("written_off", value.written_off);
    put("difference", value.difference);
    return finished(document);
}

std::string document(const std::vector<workshop::LogLine>& lines) {
    Json document = begin("log");
    document["entries"] = Json::array();
    for (const workshop::LogLine& line : lines)
        document["entries"].push_back(
            {{"entry", line.posting.id},
             {"what", line.posting.kind},
             {"day", base::to_text(line.posting.made_on)},
             {"recorded_at", line.posting.recorded_at},
             {"who", line.posting.who},
             {"note", line.posting.note},
             {"reverses", line.posting.reverses ? Json(*line.posting.reverses) : Json(nullptr)},
             {"reversed", !line.reversed_by.empty()},
             {"movements", line.movements}});
    return finished(document);
}

std::string document(const std::vector<workshop::SettingLine>& lines) {
    Json document = begin("settings");
    document["settings"] = Json::object();
    for (const workshop::SettingLine& line : lines) document["settings"][line.name] = line.value;
    return finished(document);
}

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
             {"unit", units_unit(m.form, mass)},
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

std::string check_document(const std::vector<std::string>& problems) {
    Json document = begin("check");
    document["ok"] = problems.empty();
    document["problems"] = problems;
    return finished(document);
}

} // namespace barrow::print
