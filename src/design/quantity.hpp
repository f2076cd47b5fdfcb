#pragma once

#include "base/length.hpp"
#include "base/rational.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace barrow::design {

/// What a number in a formula measures: powers of length, volume and mass. A plain number has
/// none, an area has length 2, a spread of glue (g/m2) has mass 1 and length -2.
struct Dimension {
    std::int8_t length = 0;
    std::int8_t volume = 0;
    std::int8_t mass = 0;
    friend bool operator==(const Dimension&, const Dimension&) = default;
};

inline constexpr Dimension plain{};
inline constexpr Dimension a_length{1, 0, 0};
inline constexpr Dimension an_area{2, 0, 0};
inline constexpr Dimension a_volume{0, 1, 0};
inline constexpr Dimension a_mass{0, 0, 1};

/// An exact number with its dimension, in millimetres, millilitres and grams.
struct Quantity {
    base::Rational number;
    Dimension dimension;
    friend bool operator==(const Quantity&, const Quantity&) = default;
};

/// A unit that may follow a number in a formula.
struct FormulaUnit {
    std::string_view name;
    base::Rational factor; ///< to millimetres, millilitres or grams (and their powers)
    Dimension dimension;
};

/// mm cm m in ft yd, mm2 cm2 m2 in2, ml l, g kg. Nothing for another name.
std::optional<FormulaUnit> formula_unit(std::string_view name);

/// All unit names, for messages.
std::string formula_unit_names();

/// "a plain number", "a length", "an area", "a volume", "a mass", else the powers spelled out.
std::string describe(const Dimension& dimension);

/// "165 mm", "12", "0.0124 m2", "3.5 ml": exact where a decimal is, else to 0.001 with "~".
std::string to_text(const Quantity& quantity);

/// The quantity as a length on the grid of base::Length, rounded half away from zero to the unit
/// of 1/8000 mm. Requires a_length; nothing when it is too long or below zero.
std::optional<base::Length> as_length(const Quantity& quantity);

} // namespace barrow::design
