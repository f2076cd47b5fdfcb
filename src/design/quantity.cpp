#include "design/quantity.hpp"

#include <fmt/format.h>

#include <array>

namespace barrow::design {
namespace {

using base::Rational;

/// Millimetres in an inch as a fraction: 127/5.
Rational inch() { return Rational::of(127, 5); }

const std::array<FormulaUnit, 14>& units() {
    static const std::array<FormulaUnit, 14> all = {{
        {"mm", Rational(1), a_length},
        {"cm", Rational(10), a_length},
        {"m", Rational(1'000), a_length},
        {"in", inch(), a_length},
        {"ft", inch() * Rational(12), a_length},
        {"yd", inch() * Rational(36), a_length},
        {"mm2", Rational(1), an_area},
        {"cm2", Rational(100), an_area},
        {"m2", Rational(1'000'000), an_area},
        {"in2", inch() * inch(), an_area},
        {"ml", Rational(1), a_volume},
        {"l", Rational(1'000), a_volume},
        {"g", Rational(1), a_mass},
        {"kg", Rational(1'000), a_mass},
    }};
    return all;
}

std::string number_text(const Rational& number) {
    const std::string exact = base::to_text(number);
    if (exact.find('/') == std::string::npos) return exact;
    return "~" + base::to_decimal(number, 3);
}

std::string power(std::string_view unit, int exponent) {
    return exponent == 1 ? std::string(unit) : fmt::format("{}^{}", unit, exponent);
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
    if (dimension == plain) return "a plain number";
    if (dimension == a_length) return "a length";
    if (dimension == an_area) return "an area";
    if (dimension == a_volume) return "a volume";
    if (dimension == a_mass) return "a mass";
    std::string text = "a measure in";
    if (dimension.volume != 0) text += " " + power("ml", dimension.volume);
    if (dimension.mass != 0) text += " " + power("g", dimension.mass);
    if (dimension.length != 0) text += " " + power("mm", dimension.length);
    return text;
}

std::string to_text(const Quantity& quantity) {
    const Dimension& dimension = quantity.dimension;
    if (dimension == plain) return number_text(quantity.number);
    if (dimension == a_length) return number_text(quantity.number) + " mm";
    if (dimension == an_area)
        return number_text(quantity.number / Rational(1'000'000)) + " m2";
    if (dimension == a_volume) return number_text(quantity.number) + " ml";
    if (dimension == a_mass) return number_text(quantity.number) + " g";
    return number_text(quantity.number) + " (" + describe(dimension) + ")";
}

std::optional<base::Length> as_length(const Quantity& quantity) {
    if (quantity.number < Rational(0)) return std::nullopt;
    if (quantity.number > Rational(base::Length::most_units / base::Length::units_per_mm))
        return std::nullopt;
    const auto units_exact = quantity.number * Rational(base::Length::units_per_mm);
    return base::Length::of_units(units_exact.rounded());
}

} // namespace barrow::design
