#include "design/formula/quantity.hpp"

#include <fmt/format.h>

#include <array>

namespace barrow::design {
namespace {

using base::Rational;

/// Millimetres in an inch as a fraction: 127/5.
Rational inch() {
    return Rational::of(127, 5);
}

const std::array<FormulaUnit, 17>& units() {
    static const std::array<FormulaUnit, 17> all = {{
        {"mm", Rational(1), a_length},
        {"cm", Rational(10), a_length},
        {"m", Rational(1'000), a_length},
        {"um", Rational::of(1, 1'000), a_length},
        {"in", inch(), a_length},
        {"ft", inch() * Rational(12), a_length},
        {"yd", inch() * Rational(36), a_length},
        {"mm2", Rational(1), an_area},
        {"cm2", Rational(100), an_area},
        {"m2", Rational(mm2_per_m2), an_area},
        {"in2", inch() * inch(), an_area},
        {"ml", Rational(mm3_per_ml), a_volume},
        {"cm3", Rational(mm3_per_ml), a_volume},
        {"l", Rational(1'000 * mm3_per_ml), a_volume},
        {"g", Rational(1), a_mass},
        {"kg", Rational(1'000), a_mass},
        {"lb", Rational::of(45'359'237, 100'000), a_mass},
    }};
    return all;
}

std::string number_text(const Rational& number) {
    std::string exact = base::to_text(number);
    if (exact.find('/') == std::string::npos) return exact;
    return "~" + base::to_decimal(number, 3);
}

std::string power(std::string_view unit, int exponent) {
    return exponent == 1 ? std::string(unit) : fmt::format("{}^{}", unit, exponent);
}

/// What a measure of some dimension is called, and in what it is shown.
struct Shown {
    Dimension dimension;
    std::string_view called;
    std::string_view unit;
    Rational factor;
};

const std::array<Shown, 7>& shown() {
    static const std::array<Shown, 7> all = {{
        {plain, "a plain number", "", Rational(1)},
        {a_length, "a length", " mm", Rational(1)},
        {an_area, "an area", " m2", Rational(mm2_per_m2)},
        {a_volume, "a volume", " ml", Rational(mm3_per_ml)},
        {a_mass, "a mass", " g", Rational(1)},
        {a_grammage, "a grammage", " g/m2", Rational::of(1, mm2_per_m2)},
        {a_bulk, "a bulk", " cm3/g", Rational(mm3_per_ml)},
    }};
    return all;
}

} // namespace

std::optional<FormulaUnit> formula_unit(std::string_view name) {
    for (const FormulaUnit& unit : units())
        if (unit.name == name) return unit;
    return std::nullopt;
}

std::string formula_unit_names() {
    std::string text;
    for (const FormulaUnit& unit : units()) {
        if (!text.empty()) text += ", ";
        text += unit.name;
    }
    return text;
}

std::string describe(const Dimension& dimension) {
    for (const Shown& known : shown())
        if (known.dimension == dimension) return std::string(known.called);
    std::string text = "a measure in";
    if (dimension.mass != 0) text += " " + power("g", dimension.mass);
    if (dimension.length != 0) text += " " + power("mm", dimension.length);
    return text;
}

std::string to_text(const Quantity& quantity) {
    for (const Shown& known : shown())
        if (known.dimension == quantity.dimension)
            return number_text(quantity.number / known.factor) + std::string(known.unit);
    return number_text(quantity.number) + " (" + describe(quantity.dimension) + ")";
}

std::optional<base::Length> as_length(const Quantity& quantity) {
    if (quantity.number < Rational(0)) return std::nullopt;
    if (quantity.number > Rational(base::Length::most_units / base::Length::units_per_mm))
        return std::nullopt;
    // Rounded in wide arithmetic: a length with a large divisor must not be refused here.
    const base::Wide units_exact =
        base::divide_half_away(base::Wide{quantity.number.number()} * base::Length::units_per_mm,
                               quantity.number.divisor());
    return base::Length::of_units(static_cast<std::int64_t>(units_exact));
}

Quantity quantity_of(base::Length length) {
    return {Rational::of(length.units(), base::Length::units_per_mm), a_length};
}

} // namespace barrow::design
