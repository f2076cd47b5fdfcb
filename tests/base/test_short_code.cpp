#include "base/short_code.hpp"

#include <catch2/catch.hpp>

#include <set>
#include <string>

using namespace barrow::base;

namespace {
const std::string signs = "23456789ABCDEFGHJKMNPQRSTUVWXYZ";
}

TEST_CASE("short codes hold no sign that is taken for another", "[short_code]") {
    for (int number = 0; number < 5000; ++number)
        REQUIRE(short_code(number).find_first_not_of(signs + "-") == std::string::npos);
}

TEST_CASE("every number has its own code and is read back from it", "[short_code]") {
    std::set<std::string> seen;
    for (std::int64_t number = 0; number < 40'000; ++number) {
        const std::string code = short_code(number);
        REQUIRE(seen.insert(code).second);
        REQUIRE(read_short_code(code) == number);
    }
    CHECK(short_code(0).size() == 4);
    CHECK(short_code(960).size() == 4);
    CHECK(short_code(961).size() == 5);
    CHECK(read_short_code(short_code(123'456'789'012)) == 123'456'789'012);
}

TEST_CASE("codes are read in any case, with or without the dash", "[short_code]") {
    std::string code = short_code(517);
    std::string plain;
    for (char c : code)
        if (c != '-') plain += static_cast<char>(c >= 'A' ? c - 'A' + 'a' : c);
    CHECK(read_short_code(plain) == 517);
    CHECK_FALSE(read_short_code("").has_value());
    CHECK_FALSE(read_short_code("K0-2").has_value());
}

TEST_CASE("every single wrong sign and every swap of neighbours is caught", "[short_code]") {
    for (std::int64_t number = 0; number < 3000; number += 7) {
        std::string plain;
        for (char c : short_code(number))
            if (c != '-') plain += c;
        for (std::size_t i = 0; i < plain.size(); ++i) {
            for (char wrong : signs) {
                if (wrong == plain[i]) continue;
                std::string changed = plain;
                changed[i] = wrong;
                REQUIRE_FALSE(read_short_code(changed).has_value());
            }
            if (i + 1 < plain.size() && plain[i] != plain[i + 1]) {
                std::string changed = plain;
                std::swap(changed[i], changed[i + 1]);
                REQUIRE_FALSE(read_short_code(changed).has_value());
            }
        }
    }
}
