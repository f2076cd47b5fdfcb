#include "base/date.hpp"
#include "base/error.hpp"

#include <catch2/catch.hpp>

using namespace barrow::base;

TEST_CASE("dates are read and printed as ISO 8601", "[date]") {
    CHECK(to_text(read_date("2027-03-14", "")) == "2027-03-14");
    CHECK(to_text(read_date(" 2028-02-29 ", "")) == "2028-02-29"); // a leap year
    CHECK(days_between(read_date("2027-12-31", ""), read_date("2028-03-01", "")) == 61);
    CHECK(to_text(plus_days(read_date("2027-02-27", ""), 2)) == "2027-03-01");
    CHECK(read_date("2027-01-02", "") < read_date("2027-01-10", ""));
}

TEST_CASE("what is not a day of the calendar is refused with its place", "[date]") {
    for (const char* wrong :
         {"", "2027-2-3", "2027/02/03", "03-02-2027", "2027-02-30", "2027-13-01", "2027-00-10",
          "1969-12-31", "3000-01-01", "2027-02-03T10:00"})
        CHECK_THROWS_WITH(read_date(wrong, "receipts.csv:4, date"),
                          Catch::Contains("receipts.csv:4, date") && Catch::Contains("2027-03-14"));
}
