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
    if (!base::is_utf8(value)) {
        complain(name, "is not UTF-8 text", "save the file as UTF-8");
        return {};
    }
    if (std::any_of(value.begin(), value.end(),
                    [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; }))
        complain(name, "holds a control character or a line break");
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

base::Length Fields::length(const std::string& name, base::Unit unit, bool required) {
    const std::string value = raw(name, required);
    base::Length length;
    if (!value.empty()) attempt([&] { length = base::read_length(value, where(name), unit); });
    return length;
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
