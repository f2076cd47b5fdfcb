#include "workshop/shared/fields.hpp"

#include "base/form.hpp"
#include "base/text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::workshop {

using base::Rational;

void throw_if_any(const std::vector<base::Problem>& problems) {
    if (!problems.empty()) throw base::Error(base::Kind::bad_input, problems);
}

base::Length read_measure(std::string_view text, const std::string& where,
                          std::optional<base::Unit> bare) {
    const auto number = base::read_rational(base::trimmed(text));
    if (!number || bare) return base::read_length(text, where, bare);
    if (*number == Rational(0)) return {};
    const std::string plain(base::trimmed(text));
    throw base::bad_input(
        where, fmt::format("\"{}\" has no unit: {} what?", plain, plain),
        fmt::format("write {0} mm, {0} cm, {0} in or {0} m; or say once and for all what bare "
                    "numbers are: barrow settings bare-unit mm",
                    plain));
}

namespace {

/// Whether the sign does something to a screen or to the text around it instead of being read:
/// controls of ISO 6429, separators of lines, marks and overrides of direction (Unicode, UAX #9).
bool steers(std::uint32_t sign) {
    return sign < 0x20 || (sign >= 0x7F && sign < 0xA0) || sign == 0x200E || sign == 0x200F
           || sign == 0x061C || (sign >= 0x2028 && sign <= 0x202E)
           || (sign >= 0x2066 && sign <= 0x2069) || sign == 0xFEFF;
}

/// The sign that begins at `at`, which is moved behind it. Requires UTF-8.
std::uint32_t next_sign(std::string_view text, std::size_t& at) {
    const auto first = static_cast<unsigned char>(text[at++]);
    if (first < 0x80) return first;
    const int more = first >= 0xF0 ? 3 : first >= 0xE0 ? 2 : 1;
    std::uint32_t sign = first & (0x3FU >> more);
    for (int i = 0; i < more; ++i)
        sign = sign << 6 | (static_cast<unsigned char>(text[at++]) & 0x3FU);
    return sign;
}

} // namespace

std::string plain_text(std::string text, const std::string& where) {
    if (!base::is_utf8(text))
        throw base::bad_input(where, "is not UTF-8 text", "save the file as UTF-8");
    for (std::size_t at = 0; at < text.size();) {
        const std::uint32_t sign = next_sign(text, at);
        if (sign == '\n' || sign == '\r')
            throw base::bad_input(where, "holds a line break", "write it in one line");
        if (steers(sign))
            throw base::bad_input(where, fmt::format("holds a control character (U+{:04X})", sign),
                                  "type the text again, or take out what cannot be seen");
    }
    return text;
}

std::string Fields::where(const std::string& name) const {
    if (row_.where.empty()) return row_.field_prefix + name;
    return row_.where + ", " + row_.field_prefix + name;
}

bool Fields::has(const std::string& name) const {
    const auto found = row_.fields.find(name);
    return found != row_.fields.end() && !base::trimmed(found->second).empty();
}

void Fields::complain(const std::string& name, std::string what, std::string hint) {
    problems_.push_back({where(name), std::move(what), std::move(hint)});
}

std::string Fields::raw(const std::string& name, bool required) {
    const auto found = row_.fields.find(name);
    std::string value;
    if (found != row_.fields.end()) value = base::trimmed(found->second);
    if (value.empty() && required) complain(name, "is empty", "this is needed");
    return value;
}

template <typename Read>
void Fields::attempt(Read read) {
    try {
        read();
    } catch (const base::Error& error) {
        problems_.insert(problems_.end(), error.problems().begin(), error.problems().end());
    }
}

std::string Fields::text(const std::string& name, bool required) {
    std::string value = raw(name, required);
    attempt([&] { plain_text(value, where(name)); });
    return value;
}

std::string Fields::code(const std::string& name, bool required) {
    std::string value = raw(name, required);
    const bool fits = value.size() <= 40 && std::all_of(value.begin(), value.end(), [](char c) {
                          return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z')
                                 || (c >= '0' && c <= '9') || c == '-' || c == '_' || c == '.';
                      });
    if (!fits)
        complain(name, fmt::format("\"{}\" cannot be a code", value),
                 "use letters, digits, - _ and ., at most 40, no spaces");
    return value;
}

base::Length Fields::length(const std::string& name, std::optional<base::Unit> bare,
                            bool required) {
    const std::string value = raw(name, required);
    base::Length length;
    if (!value.empty()) attempt([&] { length = read_measure(value, where(name), bare); });
    return length;
}

std::optional<base::Unit> Fields::bare_unit(std::optional<base::Unit> otherwise) {
    const std::string value = raw("unit", false);
    if (value.empty()) return otherwise;
    const auto unit = base::read_unit(value);
    if (!unit)
        complain("unit", fmt::format("\"{}\" is not a unit of length", value),
                 "expected mm, cm, m, in, ft or yd");
    return unit;
}

std::optional<base::Money> Fields::money(const std::string& name, const base::Currency& currency,
                                         bool required) {
    const std::string value = raw(name, required);
    std::optional<base::Money> money;
    if (!value.empty()) attempt([&] { money = base::read_money(value, currency, where(name)); });
    return money;
}

std::optional<std::int64_t> Fields::count(const std::string& name, std::int64_t least,
                                          std::int64_t most, bool required) {
    const std::string value = raw(name, required);
    if (value.empty()) return std::nullopt;
    const auto number = base::read_rational(value);
    if (!number || !number->is_whole() || number->number() < least || number->number() > most) {
        complain(name,
                 fmt::format("\"{}\" is not a whole number from {} to {}", value, least, most));
        return std::nullopt;
    }
    return number->number();
}

std::optional<std::int64_t> Fields::amount(const std::string& name, bool mass, bool required) {
    const std::string value = raw(name, required);
    if (value.empty()) return std::nullopt;
    const std::string small = mass ? "g" : "ml";
    const std::string large = mass ? "kg" : "l";
    std::string_view number = value;
    std::int64_t factor = base::bulk_per_unit;
    const auto strip = [&](const std::string& unit) {
        if (number.size() <= unit.size() || number.substr(number.size() - unit.size()) != unit)
            return false;
        number = base::trimmed(number.substr(0, number.size() - unit.size()));
        return true;
    };
    if (!strip(small) && strip(large)) factor *= 1'000;
    const auto quantity = base::read_rational(number);
    if (!quantity || *quantity < Rational(0) || *quantity > Rational(1'000'000)) {
        complain(name, fmt::format("\"{}\" is not an amount", value),
                 fmt::format("expected {} or {}: 250 {}", small, large, small));
        return std::nullopt;
    }
    const Rational thousandths = *quantity * Rational(factor);
    if (!thousandths.is_whole()) {
        complain(name, fmt::format("\"{}\" is finer than a thousandth of a {}", value, small));
        return std::nullopt;
    }
    return thousandths.number();
}

std::optional<base::Date> Fields::date(const std::string& name, bool required) {
    const std::string value = raw(name, required);
    std::optional<base::Date> date;
    if (!value.empty()) attempt([&] { date = base::read_date(value, where(name)); });
    return date;
}

std::string Fields::choice(const std::string& name, const std::vector<std::string>& choices,
                           bool required) {
    std::string value = base::lowered(raw(name, required));
    if (value.empty() || std::find(choices.begin(), choices.end(), value) != choices.end())
        return value;
    std::string hint = base::did_you_mean(value, choices);
    hint += fmt::format("{}expected {}", hint.empty() ? "" : " ", fmt::join(choices, ", "));
    complain(name, fmt::format("\"{}\" is not known", value), hint);
    return {};
}

} // namespace barrow::workshop
