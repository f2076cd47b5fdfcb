#pragma once

#include "base/length.hpp"
#include "base/rational.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace barrow::design {

/// What a number in a formula measures: powers of length and mass. A plain number has none, an
/// area has length 2, a volume length 3 (1 ml is 1000 mm3), a grammage (g/m2) mass 1 and
/// length -2, a bulk (cm3/g) length 3 and mass -1: grammage times bulk is a length, as it should.
struct Dimension {
    std::int8_t length = 0;
    std::int8_t mass = 0;
    friend bool operator==(const Dimension&, const Dimension&) = default;
};

inline constexpr Dimension plain{};
inline constexpr Dimension a_length{1, 0};
inline constexpr Dimension an_area{2, 0};
inline constexpr Dimension a_volume{3, 0};
inline constexpr Dimension a_mass{0, 1};
inline constexpr Dimension a_grammage{-2, 1};       ///< g/m2
inline constexpr Dimension a_bulk{3, -1};           ///< cm3/g
inline constexpr Dimension a_spread{1, 0};          ///< ml/m2: the same as a length
inline constexpr Dimension a_spread_by_mass{-2, 1}; ///< g/m2

/// Cubic millimetres in a millilitre; square millimetres in a square metre.
inline constexpr std::int64_t mm3_per_ml = 1'000;
inline constexpr std::int64_t mm2_per_m2 = 1'000'000;

/// An exact number with its dimension, in millimetres and grams and their powers.
struct Quantity {
    base::Rational number;
    Dimension dimension;
    friend bool operator==(const Quantity&, const Quantity&) = default;
};

/// A unit that may follow a number in a formula.
struct FormulaUnit {
    std::string_view name;
    base::Rational factor; ///< to millimetres and grams (and their powers)
    Dimension dimension;
};

/// um mm cm m in ft yd, mm2 cm2 m2 in2, ml l cm3, g kg lb. Nothing for another name.
/// 1 in = 25.4 mm and 1 lb = 453.59237 g exactly (international yard and pound agreement, 1959).
std::optional<FormulaUnit> formula_unit(std::string_view name);

/// All unit names, for messages.
std::string formula_unit_names();

/// "a plain number", "a length", "an area", "a volume", "a mass", "a grammage", "a bulk", else
/// the powers spelled out.
std::string describe(const Dimension& dimension);

/// "165 mm", "12", "0.0124 m2", "3.5 ml", "310 g/m2", "1.25 cm3/g": exact where a decimal is, else
/// to 0.001 with "~".
std::string to_text(const Quantity& quantity);

/// The quantity as a length on the grid of base::Length, rounded half away from zero to the unit
/// of 1/8000 mm. Requires a_length; nothing when it is too long or below zero.
std::optional<base::Length> as_length(const Quantity& quantity);

/// A length as a quantity, exact.
Quantity quantity_of(base::Length length);

} // namespace barrow::design
