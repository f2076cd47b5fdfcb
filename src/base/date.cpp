#include "base/date.hpp"

#include "base/error.hpp"
#include "base/text.hpp"

#include <fmt/format.h>

namespace barrow::base {
namespace {

bool has_form(std::string_view text) {
    if (text.size() != 10) return false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool dash = i == 4 || i == 7;
        if (dash ? text[i] != '-' : (text[i] < '0' || text[i] > '9')) return false;
    }
    return true;
}

int number_in(std::string_view digits) {
    int value = 0;
    for (char c : digits) value = value * 10 + (c - '0');
    return value;
}

} // namespace

Date read_date(std::string_view text, std::string_view where) {
    const std::string_view plain = trimmed(text);
    const auto refuse = [&](std::string_view why) {
        return bad_input(std::string(where), fmt::format("\"{}\" {}", text, why),
                         "expected year-month-day like 2027-03-14");
    };
    if (!has_form(plain)) throw refuse("is not a date");
    const std::chrono::year_month_day date{
        std::chrono::year{number_in(plain.substr(0, 4))},
        std::chrono::month{static_cast<unsigned>(number_in(plain.substr(5, 2)))},
        std::chrono::day{static_cast<unsigned>(number_in(plain.substr(8, 2)))}};
    if (!date.ok()) throw refuse("is not a day of the calendar");
    if (date.year() < std::chrono::year{1970} || date.year() > std::chrono::year{2999})
        throw refuse("is outside the years 1970 to 2999");
    return Date(std::chrono::sys_days(date));
}

std::string to_text(const Date& date) {
    const std::chrono::year_month_day parts{date.day()};
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(parts.year()),
                       static_cast<unsigned>(parts.month()), static_cast<unsigned>(parts.day()));
}

long days_between(const Date& earlier, const Date& later) {
    return static_cast<long>((later.day() - earlier.day()).count());
}

Date plus_days(const Date& date, long days) {
    return Date(date.day() + std::chrono::days(days));
}

} // namespace barrow::base
