#pragma once

#include <chrono>
#include <compare>
#include <string>
#include <string_view>

namespace barrow::base {

/// A day of the Gregorian calendar, written as ISO 8601 (2027-03-14).
class Date {
public:
    Date() = default;
    explicit Date(std::chrono::sys_days day) : day_(day) {}
    std::chrono::sys_days day() const { return day_; }
    friend auto operator<=>(const Date&, const Date&) = default;

private:
    std::chrono::sys_days day_{};
};

/// Reads YYYY-MM-DD from 1970 to 2999; throws Error (Kind::bad_input) for anything else.
Date read_date(std::string_view text, std::string_view where);

/// "2027-03-14".
std::string to_text(const Date& date);

/// Days from `earlier` to `later` (negative when the order is the other way round).
long days_between(const Date& earlier, const Date& later);

Date plus_days(const Date& date, long days);

} // namespace barrow::base
