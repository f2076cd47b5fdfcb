#include "print/text/words.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "workshop/shared/quantity_text.hpp"

#include <fmt/format.h>

namespace barrow::print {

using base::Form;
using base::Length;
using base::Rational;
using base::Unit;

namespace {

bool is_metric(Unit unit) {
    return unit == Unit::mm || unit == Unit::cm || unit == Unit::m;
}

} // namespace

std::string size_text(Form form, const base::StockSize& size, Unit unit) {
    switch (form) {
    case Form::sheet:
        return base::show(Length::of_units(size.width), unit, true) + " x "
               + base::show(Length::of_units(size.height), unit);
    case Form::length: return run_text(size.width, unit);
    case Form::wire: return base::counted(size.width, "loop");
    case Form::count:
    case Form::bulk: return {};
    }
    throw base::broken("a form without a size to show");
}

std::string run_text(std::int64_t units, Unit unit) {
    const Length length = Length::of_units(units);
    const bool long_one = length >= Length::mm(1000);
    return base::show(length, is_metric(unit) && long_one ? Unit::m : unit);
}

std::string measure_text(Form form, bool bulk_is_mass, std::int64_t quantity, Unit unit) {
    switch (form) {
    case Form::sheet: {
        const Rational square_metre = Rational::of(
            quantity, base::Wide{1'000'000} * Length::units_per_mm * Length::units_per_mm);
        return base::to_decimal(square_metre, 3) + " m2";
    }
    case Form::length: return run_text(quantity, unit);
    case Form::wire: return base::counted(quantity, "loop");
    case Form::count: return std::to_string(quantity);
    case Form::bulk:
        return workshop::thousandths_text(quantity) + " "
               + workshop::unit_word(Form::bulk, bulk_is_mass);
    }
    throw base::broken("a form without a measure to show");
}

std::string age_text(long days) {
    if (days < 1) return "today";
    if (days < 60) return base::counted(days, "day");
    if (days < 730) return base::counted(days / 30, "month");
    return base::counted(days / 365, "year");
}

std::string minutes_text(const Rational& minutes) {
    const std::int64_t whole = minutes.rounded();
    if (whole < 60) return fmt::format("{} min", whole);
    if (whole % 60 == 0) return fmt::format("{} h", whole / 60);
    return fmt::format("{} h {} min", whole / 60, whole % 60);
}

std::string percent_text(const Rational& share) {
    std::string text = base::to_decimal(share * Rational(100), 1);
    if (text.size() > 2 && text.substr(text.size() - 2) == ".0") text.resize(text.size() - 2);
    return text + " %";
}

std::string with_currency(base::Money amount, const base::Currency& currency) {
    return base::to_text(amount, currency) + " " + currency.code;
}

} // namespace barrow::print
