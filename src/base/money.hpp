#pragma once

#include "base/rational.hpp"
#include "base/wide.hpp"

#include <compare>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace barrow::base {

/// A currency of ISO 4217: three letters and how many decimal digits its minor unit has.
struct Currency {
    std::string code;
    int exponent = 2;
    friend bool operator==(const Currency&, const Currency&) = default;
};

/// The currency of that code. Exponents follow ISO 4217 List One (read in the copy of
/// datasets/currency-codes, 2026); codes not in our table are refused with the nearest named,
/// never guessed. Throws Error (Kind::bad_input).
Currency read_currency(std::string_view code, std::string_view where);

/// An amount of money in minor units (pence, cents, fils; whole yen). Never a double.
class Money {
public:
    constexpr Money() = default;
    static constexpr Money of_minor(std::int64_t minor) { return Money(minor); }
    constexpr std::int64_t minor() const { return minor_; }
    constexpr bool is_zero() const { return minor_ == 0; }

    friend constexpr Money operator+(Money a, Money b) { return Money(a.minor_ + b.minor_); }
    friend constexpr Money operator-(Money a, Money b) { return Money(a.minor_ - b.minor_); }
    constexpr Money operator-() const { return Money(-minor_); }
    Money& operator+=(Money b) {
        minor_ += b.minor_;
        return *this;
    }
    Money& operator-=(Money b) {
        minor_ -= b.minor_;
        return *this;
    }
    friend constexpr auto operator<=>(Money a, Money b) = default;

    /// Largest amount accepted anywhere, in minor units: a thousand million million, so that
    /// sums over any shop stay far from overflow.
    static constexpr std::int64_t most = 1'000'000'000'000'000;

private:
    explicit constexpr Money(std::int64_t minor) : minor_(minor) {}
    std::int64_t minor_ = 0;
};

/// How many minor units one unit of the currency has: 100 pence in a pound, 1 yen in a yen.
std::int64_t minor_per_major(const Currency& currency);

/// Reads "12.40", "1,250.00" or "12" (zero or more). Throws Error (Kind::bad_input, `where` as
/// given) for anything else: also for more decimals than the currency has, and for "12,500", which
/// is one amount where the comma parts thousands and another where it parts decimals.
Money read_money(std::string_view text, const Currency& currency, std::string_view where);

/// "12.40": all decimals of the currency, no grouping, no symbol; the form of the JSON documents.
std::string to_text(Money amount, const Currency& currency);

/// amount * factor, rounded once, half away from zero.
Money times(Money amount, const Rational& factor);

/// Divides an amount among the weights so that nothing is lost or made: each share is the exact
/// proportion rounded down or up, the units left over going to the largest remainders (earlier
/// shares first on a tie). The shares always add up to the amount. Weights are zero or more, not
/// all zero unless the amount is zero. Amount may be negative.
std::vector<Money> split(Money amount, std::span<const Wide> weights);

/// Equal shares: split with all weights 1.
std::vector<Money> split_evenly(Money amount, std::size_t shares);

/// Part of `amount` that goes with `part` out of `whole` when the rest stays behind, rounded half
/// away from zero. Taking a store down in such steps (each time with what remains as `amount` and
/// `whole`) never loses or makes a unit: the last step takes all. Requires 0 <= part <= whole,
/// 0 < whole.
Money share(Money amount, Wide part, Wide whole);

} // namespace barrow::base
