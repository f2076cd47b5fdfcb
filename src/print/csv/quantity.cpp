#include "print/csv/quantity.hpp"

#include "base/error.hpp"
#include "base/length.hpp"
#include "base/rational.hpp"

namespace barrow::print {

using base::Form;
using base::Length;
using base::Rational;

std::string plain_quantity(Form form, std::int64_t quantity) {
    switch (form) {
    case Form::sheet: {
        constexpr base::Wide per_mm = Length::units_per_mm;
        const auto area = base::to_decimal(Rational::of(quantity, per_mm * per_mm), 3);
        const std::size_t last = area.find_last_not_of('0');
        return area.substr(0, area[last] == '.' ? last : last + 1);
    }
    case Form::length: return base::to_text(Rational::of(quantity, Length::units_per_mm));
    case Form::wire:
    case Form::count: return std::to_string(quantity);
    case Form::bulk: return base::to_text(Rational::of(quantity, base::bulk_per_unit));
    }
    throw base::broken("a form without a quantity");
}

} // namespace barrow::print
