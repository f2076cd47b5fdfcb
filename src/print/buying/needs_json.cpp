#include "print/buying/needs.hpp"

#include "print/json/values.hpp"
#include "workshop/shared/quantity_text.hpp"

namespace barrow::print {

using base::Form;

std::string document(const workshop::Reorder& reorder) {
    Json document = begin("reorder");
    const base::Currency& currency = reorder.settings.currency;
    document["currency"] = currency.code;
    document["by"] = base::to_text(reorder.wanted_by);
    document["wanted"] = Json::array();
    for (const workshop::Reorder::Run& run : reorder.runs)
        document["wanted"].push_back({{"design", run.design},
                                      {"wanted", run.wanted},
                                      {"finished", run.finished},
                                      {"in_work", run.in_work}});
    document["orders"] = Json::array();
    for (const supply::SupplierOrder& order : reorder.orders) {
        Json json{{"supplier", order.supplier},
                  {"order_by", base::to_text(order.order_by)},
                  {"late", order.late},
                  {"total", base::to_text(order.total, currency)},
                  {"total_is_whole", order.total_is_whole},
                  {"lines", Json::array()}};
        for (const supply::OrderLine& line : order.lines) {
            const supply::Supply& s = line.supply;
            const auto units = [&](std::int64_t n) {
                return s.form == Form::bulk ? number(workshop::thousandths_text(n)) : Json(n);
            };
            json["lines"].push_back(
                {{"material", s.material},
                 {"for_journals", units(line.for_journals)},
                 {"for_level", units(line.for_level)},
                 {"on_order", units(s.on_order)},
                 {"packs", line.packs},
                 {"units", units(line.units)},
                 {"unit", workshop::unit_word(s.form, s.bulk_is_mass)},
                 {"cost", line.cost ? Json(base::to_text(*line.cost, currency)) : Json(nullptr)}});
        }
        document["orders"].push_back(json);
    }
    document["doubts"] = Json::array();
    for (const workshop::Reorder::Doubt& doubt : reorder.doubts)
        document["doubts"].push_back({{"material", doubt.material},
                                      {"order", doubt.waiting.order},
                                      {"expected", base::to_text(doubt.waiting.expected_on)},
                                      {"units", units_number(doubt.form, doubt.waiting.units)},
                                      {"counted", doubt.counted}});
    return finished(document);
}

} // namespace barrow::print
