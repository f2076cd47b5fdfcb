#include "base/short_code.hpp"

#include "base/wide.hpp"

#include <vector>

namespace barrow::base {
namespace {

constexpr std::string_view signs = "23456789ABCDEFGHJKMNPQRSTUVWXYZ";
constexpr std::int64_t base = 31;
static_assert(signs.size() == 31);

// Any number coprime to 31 permutes the codes of one length; these two are each other's inverse
// modulo 31^n for the n computed below, so only the factor is fixed here.
constexpr std::int64_t factor = 419;

/// Smallest n >= 2 with number < 31^2 + ... counted length by length; turns `number` into its
/// place among the codes of that length.
int length_of(std::int64_t& number, std::int64_t& span) {
    int length = 2;
    span = base * base;
    while (number >= span) {
        number -= span;
        span *= base;
        ++length;
    }
    return length;
}

std::int64_t inverse(std::int64_t value, std::int64_t modulus) {
    // Extended Euclid; value and modulus are coprime, since modulus is a power of 31.
    Wide r0 = modulus;
    Wide r1 = value % modulus;
    Wide t0 = 0;
    Wide t1 = 1;
    while (r1 != 0) {
        const Wide q = r0 / r1;
        const Wide r2 = r0 - q * r1;
        const Wide t2 = t0 - q * t1;
        r0 = r1, r1 = r2, t0 = t1, t1 = t2;
    }
    return static_cast<std::int64_t>(t0 < 0 ? t0 + modulus : t0);
}

std::int64_t check_of(const std::vector<std::int64_t>& digits) {
    std::int64_t sum = 0;
    std::int64_t weight = 2;
    for (auto it = digits.rbegin(); it != digits.rend(); ++it, ++weight) sum += *it * weight;
    // The check sign itself has weight 1, so the whole sum is a multiple of 31.
    return (base - sum % base) % base;
}

char sign(std::int64_t digit) {
    return signs[static_cast<std::size_t>(digit)];
}

} // namespace

std::string short_code(std::int64_t number) {
    std::int64_t span = 0;
    const int length = length_of(number, span);
    auto shuffled = static_cast<std::int64_t>(Wide{number} * factor % span);
    std::vector<std::int64_t> digits(static_cast<std::size_t>(length));
    for (std::size_t i = digits.size(); i-- > 0;) {
        digits[i] = shuffled % base;
        shuffled /= base;
    }
    std::string code;
    for (std::int64_t digit : digits) code += sign(digit);
    code += '-';
    code += sign(check_of(digits));
    return code;
}

std::optional<std::int64_t> read_short_code(std::string_view text) {
    std::vector<std::int64_t> digits;
    for (char c : text) {
        if (c == '-' || c == ' ') continue;
        const char upper = (c >= 'a' && c <= 'z') ? static_cast<char>(c - 'a' + 'A') : c;
        const std::size_t at = signs.find(upper);
        if (at == std::string_view::npos) return std::nullopt;
        digits.push_back(static_cast<std::int64_t>(at));
    }
    if (digits.size() < 3 || digits.size() > 12) return std::nullopt;
    const std::int64_t check = digits.back();
    digits.pop_back();
    if (check_of(digits) != check) return std::nullopt;
    std::int64_t shuffled = 0;
    std::int64_t span = 1;
    for (std::int64_t digit : digits) {
        shuffled = shuffled * base + digit;
        span *= base;
    }
    auto number = static_cast<std::int64_t>(Wide{shuffled} * inverse(factor, span) % span);
    for (std::int64_t shorter = base * base; shorter < span; shorter *= base) number += shorter;
    return number;
}

} // namespace barrow::base
