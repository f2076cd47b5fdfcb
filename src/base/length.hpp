#pragma once

#include "base/rational.hpp"
#include "base/wide.hpp"

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace barrow::base {

/// A length, exact. One unit is 1/8000 mm (0.125 micrometres): the coarsest grid on which
/// 0.001 mm (8 units), 0.01 in (2032 units) and 1/64 in (3175 units) are all whole, given
/// 1 in = 25.4 mm (international yard and pound agreement, 1959).
class Length {
public:
    static constexpr std::int64_t units_per_mm = 8'000;
    static constexpr std::int64_t units_per_inch = 203'200;
    /// Longest length accepted anywhere: 100 km, far beyond any roll, so sums cannot overflow.
    static constexpr std::int64_t most_units = 100'000'000 * units_per_mm;

    constexpr Length() = default;
    static constexpr Length of_units(std::int64_t units) { return Length(units); }
    static constexpr Length mm(std::int64_t millimetres) {
        return Length(millimetres * units_per_mm);
    }
    static constexpr Length inches(std::int64_t whole, std::int64_t sixty_fourths = 0) {
        return Length(whole * units_per_inch + sixty_fourths * (units_per_inch / 64));
    }

    constexpr std::int64_t units() const { return units_; }
    constexpr bool is_zero() const { return units_ == 0; }

    friend constexpr Length operator+(Length a, Length b) { return Length(a.units_ + b.units_); }
    friend constexpr Length operator-(Length a, Length b) { return Length(a.units_ - b.units_); }
    friend constexpr Length operator*(Length a, std::int64_t n) { return Length(a.units_ * n); }
    friend constexpr auto operator<=>(Length a, Length b) = default;

private:
    explicit constexpr Length(std::int64_t units) : units_(units) {}
    std::int64_t units_ = 0;
};

/// Area of a rectangle in square units. Fits 64 bits for every size the shop accepts
/// (see `largest_area`); wide so that sums and products need no thought.
inline Wide area(Length width, Length height) {
    return Wide{width.units()} * height.units();
}

enum class Unit { mm, cm, m, inch, foot, yard };

/// Exact size of a unit in grid units: mm 8000, in 203200, ft 2438400, yd 7315200.
std::int64_t grid_units(Unit unit);

/// "mm", "cm", "m", "in", "ft", "yd".
std::string_view symbol(Unit unit);
std::optional<Unit> read_unit(std::string_view text);

/// Reads a length as a person writes one: `16.5cm`, `165 mm`, `6 1/2in`, `6.5"`, `2 1/4 yd`, `3m`,
/// `1'`, `5ft 6in`. A bare number needs `otherwise` (the unit a file or shop says it uses).
/// Throws Error (Kind::bad_input, `where` as given) for anything else: an unknown unit (naming
/// the known ones and the nearest), a negative length, one that falls between two grid points
/// (naming the nearest that does not), or one above Length::most_units.
Length read_length(std::string_view text, std::string_view where,
                   std::optional<Unit> otherwise = std::nullopt);

/// Exact text that read_length gives back unchanged. Inches, feet and yards are written as mixed
/// numbers in 64ths or as decimals; a length that is neither falls back to millimetres.
std::string to_text(Length length, Unit unit);

/// Text for people: millimetres to 0.1, centimetres to 0.01, metres to 0.001, inches to the
/// nearest 64th, feet and yards to 0.01; with the unit unless `bare`. A measure that had to be
/// rounded to an inch fraction is marked "~".
std::string show(Length length, Unit unit, bool bare = false);

/// Millimetres as a decimal number without exponent or trailing zeros ("304.8"), exact.
std::string mm_text(Length length);

} // namespace barrow::base
