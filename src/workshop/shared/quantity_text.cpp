#include "workshop/shared/quantity_text.hpp"

#include "base/error.hpp"
#include "base/rational.hpp"
#include "base/text.hpp"

#include <fmt/format.h>

namespace barrow::workshop {

using base::Form;

std::string unit_word(Form form, bool bulk_is_mass) {
    switch (form) {
    case Form::sheet: return "sheet";
    case Form::length: return "roll";
    case Form::wire: return "strip";
    case Form::count: return "piece";
    case Form::bulk: return bulk_is_mass ? "g" : "ml";
    }
    throw base::broken("a form without a word for its unit");
}

std::string units_text(Form form, bool bulk_is_mass, std::int64_t units) {
    if (form == Form::bulk)
        return fmt::format("{} {}", thousandths_text(units), unit_word(form, bulk_is_mass));
    return base::counted(units, unit_word(form, bulk_is_mass));
}

std::string thousandths_text(std::int64_t thousandths) {
    return base::to_text(base::Rational::of(thousandths, base::bulk_per_unit));
}

} // namespace barrow::workshop
