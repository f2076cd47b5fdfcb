#pragma once

#include "base/wide.hpp"

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace barrow::base {

/// An exact fraction in lowest terms with 64-bit numerator and positive 64-bit denominator.
/// Used for rates, percentages and formulas, where a double would lose a penny. Arithmetic that
/// would leave 64 bits throws Error (Kind::refused): it never wraps and never rounds.
class Rational {
public:
    Rational() = default;
    Rational(std::int64_t whole)
        : number_(whole) {} // NOLINT(google-explicit-constructor): 3 is 3/1
    /// number / divisor in lowest terms. Requires divisor != 0.
    static Rational of(Wide number, Wide divisor);

    std::int64_t number() const { return number_; }
    std::int64_t divisor() const { return divisor_; }
    bool is_whole() const { return divisor_ == 1; }

    /// Nearest integer, halves away from zero; largest integer not above; smallest not below.
    std::int64_t rounded() const;
    std::int64_t floor() const;
    std::int64_t ceiling() const;

    friend Rational operator+(const Rational& a, const Rational& b);
    friend Rational operator-(const Rational& a, const Rational& b);
    friend Rational operator*(const Rational& a, const Rational& b);
    /// Requires b != 0.
    friend Rational operator/(const Rational& a, const Rational& b);
    Rational operator-() const;
    friend bool operator==(const Rational& a, const Rational& b) = default;
    friend std::strong_ordering operator<=>(const Rational& a, const Rational& b);

private:
    std::int64_t number_ = 0;
    std::int64_t divisor_ = 1;
};

/// Reads "3", "-2.75", "1/3" or "2 1/4" whole; nothing for anything else, for a zero divisor,
/// or for what does not fit.
std::optional<Rational> read_rational(std::string_view text);

/// Exact text: a decimal where one exists ("2.75"), else a fraction ("1/3").
std::string to_text(const Rational& value);

/// Decimal text rounded half away from zero to `places` digits (0 to 9), trailing zeros kept.
std::string to_decimal(const Rational& value, int places);

} // namespace barrow::base
