#include "print/json/values.hpp"

#include "base/error.hpp"
#include "workshop/shared/quantity_text.hpp"

#include <charconv>
#include <cstdlib>

namespace barrow::print {

using base::Form;

Json begin(const char* kind) {
    return Json{{"kind", kind}, {"version", 1}};
}

std::string finished(const Json& document) {
    // Codes and names are checked on the way in, so nothing here can be other than UTF-8.
    return document.dump(2) + "\n";
}

Json number(const std::string& decimal) {
    if (decimal.empty() || decimal.find_first_not_of("-0123456789.") != std::string::npos)
        throw base::broken(decimal + " is not a decimal");
    if (decimal.find('.') == std::string::npos) return std::strtoll(decimal.c_str(), nullptr, 10);
    // Not strtod: what it takes for the decimal point depends on the locale.
    double value = 0;
    std::from_chars(decimal.data(), decimal.data() + decimal.size(), value);
    return value;
}

Json millimetres(std::int64_t units) {
    return number(base::mm_text(base::Length::of_units(units)));
}

Json units_number(Form form, std::int64_t units) {
    return form == Form::bulk ? number(workshop::thousandths_text(units)) : Json(units);
}

Json quantity_number(Form form, std::int64_t quantity) {
    switch (form) {
    case Form::sheet: {
        constexpr base::Wide per_mm = base::Length::units_per_mm;
        return number(base::to_decimal(base::Rational::of(quantity, per_mm * per_mm), 3));
    }
    case Form::length: return millimetres(quantity);
    case Form::wire:
    case Form::count: return quantity;
    case Form::bulk: return number(workshop::thousandths_text(quantity));
    }
    throw base::broken("a form without a quantity");
}

Json size_json(Form form, const base::StockSize& size) {
    if (form == Form::sheet)
        return Json{{"width", millimetres(size.width)}, {"height", millimetres(size.height)}};
    if (form == Form::length) return Json{{"length", millimetres(size.width)}};
    if (form == Form::wire) return Json{{"loops", size.width}};
    return nullptr;
}

std::string quantity_unit(Form form, bool bulk_is_mass) {
    switch (form) {
    case Form::sheet: return "mm2";
    case Form::length: return "mm";
    case Form::wire: return "loop";
    case Form::count: return "piece";
    case Form::bulk: return bulk_is_mass ? "g" : "ml";
    }
    throw base::broken("a form without a unit");
}

} // namespace barrow::print
