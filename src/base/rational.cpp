#include "base/rational.hpp"

#include "base/error.hpp"

#include <fmt/format.h>

#include <array>

namespace barrow::base {
namespace {

Wide magnitude(Wide value) {
    return value < 0 ? -value : value;
}

Wide common_divisor(Wide a, Wide b) {
    while (b != 0) {
        const Wide rest = a % b;
        a = b;
        b = rest;
    }
    return a;
}

std::int64_t fit(Wide value) {
    const auto narrowed = narrow(value);
    if (!narrowed) throw refused("a number in this calculation is too large to be exact");
    return *narrowed;
}

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/// Digits at the front of `text`, taken off it; nothing when there are none or too many.
std::optional<std::int64_t> take_digits(std::string_view& text) {
    std::int64_t value = 0;
    std::size_t used = 0;
    while (used < text.size() && is_digit(text[used])) {
        if (used >= 18) return std::nullopt;
        value = value * 10 + (text[used] - '0');
        ++used;
    }
    if (used == 0) return std::nullopt;
    text.remove_prefix(used);
    return value;
}

constexpr std::array<std::int64_t, 19> powers_of_ten = {1,
                                                        10,
                                                        100,
                                                        1'000,
                                                        10'000,
                                                        100'000,
                                                        1'000'000,
                                                        10'000'000,
                                                        100'000'000,
                                                        1'000'000'000,
                                                        10'000'000'000,
                                                        100'000'000'000,
                                                        1'000'000'000'000,
                                                        10'000'000'000'000,
                                                        100'000'000'000'000,
                                                        1'000'000'000'000'000,
                                                        10'000'000'000'000'000,
                                                        100'000'000'000'000'000,
                                                        1'000'000'000'000'000'000};

/// The part behind a decimal point: "75" is 75/100. May be empty only after a whole part.
std::optional<Rational> take_fraction_digits(std::string_view& text) {
    const std::size_t before = text.size();
    const auto digits = take_digits(text);
    if (!digits) return std::nullopt;
    return Rational::of(*digits, powers_of_ten[before - text.size()]);
}

std::optional<Rational> read_unsigned(std::string_view text) {
    if (!text.empty() && text.front() == '.') {
        text.remove_prefix(1);
        const auto part = take_fraction_digits(text);
        return text.empty() ? part : std::nullopt;
    }
    const auto first = take_digits(text);
    if (!first) return std::nullopt;
    if (text.empty()) return Rational(*first);
    if (text.front() == '.') {
        text.remove_prefix(1);
        const auto part = take_fraction_digits(text);
        if (!part || !text.empty()) return std::nullopt;
        return Rational(*first) + *part;
    }
    std::int64_t whole = 0;
    std::int64_t above = *first;
    if (text.front() == ' ') {
        while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
        whole = above;
        const auto next = take_digits(text);
        if (!next) return std::nullopt;
        above = *next;
    }
    if (text.empty() || text.front() != '/') return std::nullopt;
    text.remove_prefix(1);
    const auto below = take_digits(text);
    if (!below || *below == 0 || !text.empty()) return std::nullopt;
    return Rational(whole) + Rational::of(above, *below);
}

} // namespace

Rational Rational::of(Wide number, Wide divisor) {
    if (divisor < 0) {
        number = -number;
        divisor = -divisor;
    }
    const Wide shared = common_divisor(magnitude(number), divisor);
    Rational result;
    result.number_ = fit(number / shared);
    result.divisor_ = fit(divisor / shared);
    return result;
}

std::int64_t Rational::rounded() const {
    return fit(divide_half_away(number_, divisor_));
}
std::int64_t Rational::floor() const {
    return fit(divide_down(number_, divisor_));
}
std::int64_t Rational::ceiling() const {
    return fit(divide_up(number_, divisor_));
}

Rational operator+(const Rational& a, const Rational& b) {
    return Rational::of(Wide{a.number_} * b.divisor_ + Wide{b.number_} * a.divisor_,
                        Wide{a.divisor_} * b.divisor_);
}

Rational operator-(const Rational& a, const Rational& b) {
    return a + -b;
}

Rational operator*(const Rational& a, const Rational& b) {
    return Rational::of(Wide{a.number_} * b.number_, Wide{a.divisor_} * b.divisor_);
}

Rational operator/(const Rational& a, const Rational& b) {
    return Rational::of(Wide{a.number_} * b.divisor_, Wide{a.divisor_} * b.number_);
}

Rational Rational::operator-() const {
    Rational result = *this;
    result.number_ = fit(-Wide{number_});
    return result;
}

std::strong_ordering operator<=>(const Rational& a, const Rational& b) {
    const Wide left = Wide{a.number_} * b.divisor_;
    const Wide right = Wide{b.number_} * a.divisor_;
    if (left < right) return std::strong_ordering::less;
    return left > right ? std::strong_ordering::greater : std::strong_ordering::equal;
}

std::optional<Rational> read_rational(std::string_view text) {
    bool negative = false;
    if (!text.empty() && (text.front() == '-' || text.front() == '+')) {
        negative = text.front() == '-';
        text.remove_prefix(1);
    }
    try {
        const auto value = read_unsigned(text);
        if (!value) return std::nullopt;
        return negative ? -*value : *value;
    } catch (const Error&) {
        return std::nullopt; // too large to be exact: the caller names the field
    }
}

std::string to_text(const Rational& value) {
    std::int64_t rest = value.divisor();
    int twos = 0;
    int fives = 0;
    for (; rest % 2 == 0; rest /= 2) ++twos;
    for (; rest % 5 == 0; rest /= 5) ++fives;
    const int places = twos > fives ? twos : fives;
    if (rest != 1 || places > 9) return fmt::format("{}/{}", value.number(), value.divisor());
    return to_decimal(value, places);
}

std::string to_decimal(const Rational& value, int places) {
    const std::int64_t scale = powers_of_ten[static_cast<std::size_t>(places)];
    const Wide scaled = divide_half_away(Wide{value.number()} * scale, value.divisor());
    const Wide size = magnitude(scaled);
    const auto whole = fit(size / scale);
    const auto part = fit(size % scale);
    const char* sign = scaled < 0 ? "-" : "";
    if (places == 0) return fmt::format("{}{}", sign, whole);
    return fmt::format("{}{}.{:0{}}", sign, whole, part, places);
}

} // namespace barrow::base
