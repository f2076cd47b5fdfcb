#include "base/money.hpp"

#include "base/error.hpp"
#include "base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <numeric>

namespace barrow::base {
namespace {

struct Entry {
    std::string_view code;
    int exponent;
};

// ISO 4217 List One, active currencies; read in datasets/currency-codes, 2026, where marked by a
// test (tests/base/currency_minor_units.csv), the rest from memory.
constexpr std::array<Entry, 76> currencies = {
    {{"AED", 2}, {"ARS", 2}, {"AUD", 2}, {"BAM", 2}, {"BDT", 2}, {"BGN", 2}, {"BHD", 3}, {"BRL", 2},
     {"CAD", 2}, {"CHF", 2}, {"CLF", 4}, {"CLP", 0}, {"CNY", 2}, {"COP", 2}, {"CRC", 2}, {"CZK", 2},
     {"DKK", 2}, {"DOP", 2}, {"DZD", 2}, {"EGP", 2}, {"EUR", 2}, {"GBP", 2}, {"GEL", 2}, {"GHS", 2},
     {"HKD", 2}, {"HUF", 2}, {"IDR", 2}, {"ILS", 2}, {"INR", 2}, {"IQD", 3}, {"ISK", 0}, {"JOD", 3},
     {"JPY", 0}, {"KES", 2}, {"KRW", 0}, {"KWD", 3}, {"KZT", 2}, {"LBP", 2}, {"LKR", 2}, {"LYD", 3},
     {"MAD", 2}, {"MKD", 2}, {"MXN", 2}, {"MYR", 2}, {"NGN", 2}, {"NOK", 2}, {"NPR", 2}, {"NZD", 2},
     {"OMR", 3}, {"PEN", 2}, {"PHP", 2}, {"PKR", 2}, {"PLN", 2}, {"PYG", 0}, {"QAR", 2}, {"RON", 2},
     {"RSD", 2}, {"SAR", 2}, {"SEK", 2}, {"SGD", 2}, {"THB", 2}, {"TND", 3}, {"TRY", 2}, {"TWD", 2},
     {"TZS", 2}, {"UAH", 2}, {"UGX", 0}, {"USD", 2}, {"UYU", 2}, {"UYW", 4}, {"VND", 0}, {"XAF", 0},
     {"XOF", 0}, {"XPF", 0}, {"ZAR", 2}, {"ZMW", 2}}};

/// "1,250.00" without its commas, when they stand where a thousands separator may.
std::string without_grouping(std::string_view text) {
    const std::size_t point = std::min(text.find('.'), text.size());
    const std::size_t first = text.find(',');
    if (first == std::string_view::npos || first == 0 || first > 3) return std::string(text);
    std::string result;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] != ',') {
            result += text[i];
        } else if (i > point || (point - i) % 4 != 0) {
            return std::string(text); // not a thousands separator: let the number reader refuse it
        }
    }
    return result;
}

/// One comma before three digits: thousands where some write, decimals where others do.
bool reads_two_ways(std::string_view text) {
    return text.size() > 4 && text.find('.') == std::string_view::npos
           && std::count(text.begin(), text.end(), ',') == 1 && text[text.size() - 4] == ',';
}

} // namespace

Currency read_currency(std::string_view code, std::string_view where) {
    const std::string wanted = raised(trimmed(code));
    std::vector<std::string> known;
    for (const Entry& entry : currencies) {
        if (entry.code == wanted) return {wanted, entry.exponent};
        known.emplace_back(entry.code);
    }
    throw bad_input(std::string(where),
                    fmt::format("\"{}\" is not a currency code known here", code),
                    "expected three letters of ISO 4217, such as GBP, EUR or JPY; "
                        + did_you_mean(wanted, known));
}

std::int64_t minor_per_major(const Currency& currency) {
    std::int64_t scale = 1;
    for (int i = 0; i < currency.exponent; ++i) scale *= 10;
    return scale;
}

Money read_money(std::string_view text, const Currency& currency, std::string_view where) {
    const std::string plain = without_grouping(trimmed(text));
    const auto value = read_rational(plain);
    const auto refuse = [&](std::string_view why) {
        return bad_input(std::string(where), fmt::format("\"{}\" {}", text, why),
                         fmt::format("expected {} like {}", currency.code,
                                     to_text(Money::of_minor(1240), currency)));
    };
    if (reads_two_ways(trimmed(text)))
        throw bad_input(std::string(where), fmt::format("\"{}\" can be read in two ways", text),
                        "write thousands without a comma (12500), and decimals behind a point "
                        "(12.50)");
    if (!value || plain.find('/') != std::string::npos) throw refuse("is not an amount of money");
    if (*value < Rational(0)) throw refuse("is below zero");
    if (*value > Rational(Money::most / minor_per_major(currency)))
        throw refuse("is too large an amount");
    const Rational minor = *value * Rational(minor_per_major(currency));
    if (!minor.is_whole())
        throw refuse(
            fmt::format("has more decimals than {} has ({})", currency.code, currency.exponent));
    return Money::of_minor(minor.number());
}

std::string to_text(Money amount, const Currency& currency) {
    return to_decimal(Rational::of(amount.minor(), minor_per_major(currency)), currency.exponent);
}

Money times(Money amount, const Rational& factor) {
    const auto minor =
        narrow(divide_half_away(Wide{amount.minor()} * factor.number(), factor.divisor()));
    if (!minor) throw refused("an amount of money in this calculation is too large");
    return Money::of_minor(*minor);
}

std::vector<Money> split(Money amount, std::span<const Wide> weights) {
    const Wide total = std::accumulate(weights.begin(), weights.end(), Wide{0});
    std::vector<Money> shares(weights.size());
    if (amount.is_zero()) return shares;
    if (total <= 0) throw broken("an amount of money was to be divided among nothing");
    const bool negative = amount.minor() < 0;
    const Wide whole = negative ? -Wide{amount.minor()} : Wide{amount.minor()};

    std::vector<Wide> remainders(weights.size());
    std::vector<std::size_t> order(weights.size());
    Wide given = 0;
    std::vector<Wide> minor(weights.size());
    for (std::size_t i = 0; i < weights.size(); ++i) {
        // whole <= 1e15 < 2^50 and a weight may need 2^77 at most before this could overflow;
        // areas of whole shops stay below 2^70.
        minor[i] = whole * weights[i] / total;
        remainders[i] = whole * weights[i] % total;
        given += minor[i];
        order[i] = i;
    }
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return remainders[a] > remainders[b]; });
    for (std::size_t i = 0; given < whole; ++i, ++given) ++minor[order[i]];
    for (std::size_t i = 0; i < weights.size(); ++i) {
        const auto units = static_cast<std::int64_t>(minor[i]);
        shares[i] = Money::of_minor(negative ? -units : units);
    }
    return shares;
}

std::vector<Money> split_evenly(Money amount, std::size_t shares) {
    const std::vector<Wide> ones(shares, 1);
    return split(amount, ones);
}

Money share(Money amount, Wide part, Wide whole) {
    return Money::of_minor(
        static_cast<std::int64_t>(divide_half_away(Wide{amount.minor()} * part, whole)));
}

} // namespace barrow::base
