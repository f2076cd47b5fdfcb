#include "print/books/reports.hpp"

#include "print/json/values.hpp"
#include "workshop/shared/quantity_text.hpp"

namespace barrow::print {
namespace {

using base::Form;
using base::Money;
using workshop::StockLine;

Json stock_json(const StockLine& line, const base::Currency& currency) {
    const store::Material& m = line.material;
    const bool mass = m.bulk_unit == "g";
    return {{"code", m.code},
            {"name", m.name},
            {"form", base::name_of(m.form)},
            {"on_hand", units_number(m.form, line.units)},
            {"unit", workshop::unit_word(m.form, mass)},
            {"value", base::to_text(line.shelf_value + line.offcut_value, currency)},
            {"offcuts", line.offcuts},
            {"offcut_value", base::to_text(line.offcut_value, currency)},
            {"quantity", quantity_number(m.form, line.quantity)},
            {"quantity_unit", quantity_unit(m.form, mass)}};
}

Json amount_json(Form form, const workshop::Amount& amount, const base::Currency& currency) {
    return {{"quantity", quantity_number(form, amount.quantity)},
            {"value", base::to_text(amount.value, currency)}};
}

} // namespace

std::string document(const workshop::StockOn& on) {
    Json document = begin("stock_on");
    const base::Currency& currency = on.stock.settings.currency;
    document["on"] = base::to_text(on.on);
    document["currency"] = currency.code;
    document["materials"] = Json::array();
    for (const StockLine& line : on.stock.lines)
        document["materials"].push_back(stock_json(line, currency));
    document["value"] = base::to_text(on.stock.value, currency);
    document["in_work"] = base::to_text(on.in_work, currency);
    document["journals"] = on.journals;
    document["in_journals"] = base::to_text(on.in_journals, currency);
    return finished(document);
}

std::string document(const workshop::Usage& usage) {
    Json document = begin("usage");
    const base::Currency& currency = usage.settings.currency;
    document["from"] = base::to_text(usage.from);
    document["to"] = base::to_text(usage.to);
    document["currency"] = currency.code;
    document["lines"] = Json::array();
    for (const workshop::UsageLine& line : usage.lines)
        document["lines"].push_back(
            {{"month", line.month},
             {"material", line.material},
             {"form", base::name_of(line.form)},
             {"unit", quantity_unit(line.form, line.bulk_is_mass)},
             {"in_journals", amount_json(line.form, line.in_journals, currency)},
             {"kept", amount_json(line.form, line.kept, currency)},
             {"written_off", amount_json(line.form, line.written_off, currency)}});
    document["in_journals"] = base::to_text(usage.in_journals, currency);
    document["kept"] = base::to_text(usage.kept, currency);
    document["written_off"] = base::to_text(usage.written_off, currency);
    return finished(document);
}

std::string document(const workshop::SlowStock& slow) {
    Json document = begin("slow_stock");
    const base::Currency& currency = slow.settings.currency;
    document["days"] = slow.days;
    document["currency"] = currency.code;
    document["materials"] = Json::array();
    for (const workshop::SlowLine& line : slow.lines) {
        Json json = stock_json(line.stock, currency);
        json["last_use"] = line.last_use ? Json(base::to_text(*line.last_use)) : Json(nullptr);
        json["since"] = base::to_text(line.since);
        json["days"] = line.days;
        json["state"] = line.dead ? "dead" : "slow";
        document["materials"].push_back(json);
    }
    document["value"] = base::to_text(slow.value, currency);
    return finished(document);
}

std::string document(const workshop::BoxByAge& box) {
    Json document = begin("offcut_ages");
    const base::Currency& currency = box.settings.currency;
    document["currency"] = currency.code;
    document["offcuts"] = Json::array();
    for (const workshop::OffcutLine& line : box.lines)
        document["offcuts"].push_back({{"code", line.there.offcut.code},
                                       {"material", line.material},
                                       {"form", base::name_of(line.form)},
                                       {"size", size_json(line.form, line.there.offcut.size)},
                                       {"value", base::to_text(line.there.value, currency)},
                                       {"kept_on", base::to_text(line.there.offcut.kept_on)},
                                       {"age_days", line.age_days},
                                       {"place", line.there.offcut.place}});
    document["materials"] = Json::array();
    for (const workshop::BoxSum& sum : box.materials)
        document["materials"].push_back({{"code", sum.code},
                                         {"offcuts", sum.offcuts},
                                         {"quantity", quantity_number(sum.form, sum.quantity)},
                                         {"quantity_unit", quantity_unit(sum.form, false)},
                                         {"value", base::to_text(sum.value, currency)}});
    document["ages"] = Json::array();
    for (const workshop::BoxSum& sum : box.ages)
        document["ages"].push_back({{"age", sum.code},
                                    {"offcuts", sum.offcuts},
                                    {"value", base::to_text(sum.value, currency)}});
    document["value"] = base::to_text(box.value, currency);
    return finished(document);
}

std::string document(const workshop::Year& year) {
    Json document = begin("year");
    const base::Currency& currency = year.settings.currency;
    document["from"] = base::to_text(year.from);
    document["to"] = base::to_text(year.to);
    document["currency"] = currency.code;
    const auto money = [&](Money amount) { return base::to_text(amount, currency); };
    const auto ends = [&](const workshop::Ends& own) {
        return Json{{"opening", money(own.opening)}, {"closing", money(own.closing)}};
    };
    document["opening"] = money(year.all().opening);
    document["bought"] = money(year.bought);
    document["closing"] = money(year.all().closing);
    document["used"] = money(year.used());
    document["made"] = money(year.made);
    document["sold"] = money(year.sold);
    document["written_off"] = money(year.written_off());
    document["materials"] = ends(year.materials);
    document["materials"]["came_back"] = money(year.came_back);
    document["materials"]["put_to_work"] = money(year.put_to_work);
    document["materials"]["written_off"] = money(year.materials_lost);
    document["work"] = ends(year.work);
    document["work"]["given_up"] = money(year.work_lost);
    document["journals"] = ends(year.journals);
    document["journals"]["made"] = year.journals_made;
    document["journals"]["sold"] = year.journals_sold;
    document["journals"]["written_off"] = money(year.journals_lost);
    document["takings"] = money(year.takings);
    document["gross_profit"] = money(year.gross_profit());
    document["fairs"] = money(year.fairs);
    document["difference"] = money(year.difference);
    document["remark"] = "materials only; no tax advice";
    return finished(document);
}

} // namespace barrow::print
