#include "base/length.hpp"

#include "base/error.hpp"
#include "base/text.hpp"

#include <fmt/format.h>

#include <array>

namespace barrow::base {
namespace {

struct UnitName {
    std::string_view text;
    Unit unit;
};

// Both quote marks people type for inches and feet, straight and typographic.
constexpr std::array<UnitName, 27> unit_names = {
    {{"mm", Unit::mm},          {"cm", Unit::cm},          {"m", Unit::m},
     {"in", Unit::inch},        {"ft", Unit::foot},        {"yd", Unit::yard},
     {"inch", Unit::inch},      {"inches", Unit::inch},    {"\"", Unit::inch},
     {"\u201d", Unit::inch},    {"\u2033", Unit::inch},    {"''", Unit::inch},
     {"'", Unit::foot},         {"\u2019", Unit::foot},    {"\u2032", Unit::foot},
     {"foot", Unit::foot},      {"feet", Unit::foot},      {"yard", Unit::yard},
     {"yards", Unit::yard},     {"yds", Unit::yard},       {"metre", Unit::m},
     {"metres", Unit::m},       {"meter", Unit::m},        {"meters", Unit::m},
     {"millimetres", Unit::mm}, {"centimetres", Unit::cm}, {"centimeters", Unit::cm}}};

constexpr std::string_view accepted_forms = "write for example 16.5cm, 165mm, 6 1/2in, 2 1/4yd, 3m";

bool starts_number(char c) {
    return (c >= '0' && c <= '9') || c == '.';
}

bool belongs_to_number(char c) {
    return starts_number(c) || c == '/' || c == ' ';
}

/// Splits "6 1/2in" into the number text and the unit text behind it.
std::pair<std::string_view, std::string_view> split_number(std::string_view text) {
    std::size_t end = 0;
    while (end < text.size() && belongs_to_number(text[end])) ++end;
    return {trimmed(text.substr(0, end)), trimmed(text.substr(end))};
}

Error unknown_unit(std::string_view given, std::string_view whole, std::string_view where) {
    std::vector<std::string> known;
    for (std::size_t i = 0; i < 6; ++i) known.emplace_back(unit_names.at(i).text);
    const auto near = nearest(given, known, 1);
    const std::string hint = near.empty() ? fmt::format("known units: {}", fmt::join(known, ", "))
                                          : fmt::format("did you mean \"{}\"? known units: {}",
                                                        near.front(), fmt::join(known, ", "));
    return bad_input(std::string(where),
                     fmt::format("unknown unit \"{}\" in the length \"{}\"", given, whole), hint);
}

Length on_grid(const Rational& units, std::string_view whole, std::string_view where) {
    if (units.is_whole()) {
        if (units.number() > Length::most_units)
            throw bad_input(std::string(where), fmt::format("the length \"{}\" is too long", whole),
                            "the longest is 100 km");
        return Length::of_units(units.number());
    }
    const Rational thousandths = units / Rational(8);
    throw bad_input(std::string(where),
                    fmt::format("the length \"{}\" is finer than lengths are kept", whole),
                    fmt::format("0.001 mm, 0.01 in and 1/64 in are exact; the nearest is {}mm",
                                to_text(Rational::of(thousandths.rounded(), 1'000))));
}

/// Splits off the first measure of "5ft 6in": up to where a number starts again after a unit.
std::size_t end_of_measure(std::string_view text) {
    std::size_t i = 0;
    while (i < text.size() && belongs_to_number(text[i])) ++i;
    while (i < text.size() && !starts_number(text[i])) ++i;
    return i;
}

std::string inch_fraction(std::int64_t sixty_fourths) {
    const std::int64_t whole = sixty_fourths / 64;
    std::int64_t above = sixty_fourths % 64;
    std::int64_t below = 64;
    while (above != 0 && above % 2 == 0) {
        above /= 2;
        below /= 2;
    }
    if (above == 0) return fmt::format("{}", whole);
    if (whole == 0) return fmt::format("{}/{}", above, below);
    return fmt::format("{} {}/{}", whole, above, below);
}

int shown_places(Unit unit) {
    switch (unit) {
    case Unit::mm: return 1;
    case Unit::m: return 3;
    case Unit::cm:
    case Unit::inch:
    case Unit::foot:
    case Unit::yard: return 2;
    }
    throw broken("a unit of length without decimals to show");
}

std::string without_trailing_zeros(std::string text) {
    if (text.find('.') == std::string::npos) return text;
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
    return text;
}

} // namespace

std::int64_t grid_units(Unit unit) {
    switch (unit) {
    case Unit::mm: return Length::units_per_mm;
    case Unit::cm: return 10 * Length::units_per_mm;
    case Unit::m: return 1'000 * Length::units_per_mm;
    case Unit::inch: return Length::units_per_inch;
    case Unit::foot: return 12 * Length::units_per_inch;
    case Unit::yard: return 36 * Length::units_per_inch;
    }
    throw broken("a unit of length without a size");
}

std::string_view symbol(Unit unit) {
    for (const UnitName& name : unit_names)
        if (name.unit == unit) return name.text;
    throw broken("a unit of length without a name");
}

std::optional<Unit> read_unit(std::string_view text) {
    const std::string lower = lowered(text);
    for (const UnitName& name : unit_names)
        if (name.text == lower) return name.unit;
    return std::nullopt;
}

Length read_length(std::string_view text, std::string_view where, std::optional<Unit> otherwise) {
    std::string_view rest = trimmed(text);
    if (rest.empty())
        throw bad_input(std::string(where), "a length is missing", std::string(accepted_forms));
    if (rest.front() == '-')
        throw bad_input(std::string(where), fmt::format("the length \"{}\" is below zero", text),
                        "lengths are zero or more");
    Length sum;
    while (!rest.empty()) {
        const std::size_t end = end_of_measure(rest);
        const auto [number, unit_text] = split_number(rest.substr(0, end));
        const auto value = read_rational(number);
        if (!value)
            throw bad_input(std::string(where), fmt::format("\"{}\" is not a length", text),
                            std::string(accepted_forms));
        std::optional<Unit> unit = otherwise;
        if (!unit_text.empty()) {
            unit = read_unit(unit_text);
            if (!unit) throw unknown_unit(unit_text, text, where);
        }
        if (!unit)
            throw bad_input(std::string(where), fmt::format("the length \"{}\" has no unit", text),
                            std::string(accepted_forms));
        if (*value > Rational(Length::most_units / grid_units(*unit)))
            throw bad_input(std::string(where), fmt::format("the length \"{}\" is too long", text),
                            "the longest is 100 km");
        sum = sum + on_grid(*value * Rational(grid_units(*unit)), text, where);
        rest = trimmed(rest.substr(end));
    }
    return sum;
}

std::string to_text(Length length, Unit unit) {
    const Rational value = Rational::of(length.units(), grid_units(unit));
    const bool imperial = unit == Unit::inch || unit == Unit::foot || unit == Unit::yard;
    if (imperial && (Rational(64) * value).is_whole() && length.units() >= 0)
        return inch_fraction((Rational(64) * value).number()) + std::string(symbol(unit));
    const std::string text = to_text(value);
    if (text.find('/') == std::string::npos) return text + std::string(symbol(unit));
    return mm_text(length) + "mm";
}

std::string show(Length length, Unit unit, bool bare) {
    const std::string suffix = bare ? std::string() : " " + std::string(symbol(unit));
    const Rational value = Rational::of(length.units(), grid_units(unit));
    if (unit != Unit::inch)
        return without_trailing_zeros(to_decimal(value, shown_places(unit))) + suffix;
    const Rational sixty_fourths = Rational(64) * value;
    const std::int64_t nearest_one = sixty_fourths.rounded();
    const std::string sign = nearest_one < 0 ? "-" : "";
    const std::string about = sixty_fourths.is_whole() ? "" : "~";
    return about + sign + inch_fraction(nearest_one < 0 ? -nearest_one : nearest_one) + suffix;
}

std::string mm_text(Length length) {
    return to_text(Rational::of(length.units(), Length::units_per_mm));
}

} // namespace barrow::base
