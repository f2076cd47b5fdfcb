#include "page/server/http.hpp"
#include "page/server/secret.hpp"

#include <catch2/catch.hpp>

#include <set>

using namespace barrow::page;

TEST_CASE("forms are read as the URL Standard has it", "[page][http]") {
    // WHATWG URL Standard, section 5.1: pairs at &, the first = divides, + is a blank, %XX a byte.
    const Values values = read_form("a=1&b=two+words&c=%C3%A9%2B&&d&=e&a=2&f=x=y");
    REQUIRE(values.list().size() == 7);
    CHECK(values.get("a") == "1");
    CHECK(values.all("a") == std::vector<std::string>{"1", "2"});
    CHECK(values.get("b") == "two words");
    CHECK(values.get("c") == "\xC3\xA9+");
    CHECK(values.has("d"));
    CHECK(values.get("d").empty());
    CHECK(values.get("") == "e");
    CHECK(values.get("f") == "x=y");
    CHECK_FALSE(values.has("g"));
}

TEST_CASE("a percent sign that begins no byte stays what it is", "[page][http]") {
    // The same standard, section 1.3, percent-decode.
    CHECK(decoded("%", false) == "%");
    CHECK(decoded("%4", false) == "%4");
    CHECK(decoded("%zz%41", false) == "%zzA");
    CHECK(decoded("a+b", false) == "a+b");
}

TEST_CASE("what is written as a form is read again", "[page][http]") {
    Values values;
    values.add("set.edge", "16.5 cm & more = \"all\"");
    values.add("note", "\xC3\xA9t\xC3\xA9\n100%");
    const Values again = read_form(write_form(values));
    CHECK(again.list() == values.list());
    CHECK(encoded("a b/c&d") == "a%20b%2Fc%26d");
}

TEST_CASE("values under a prefix lose it; empty ones are left out", "[page][http]") {
    const Values values = read_form("set.a=1&set.b=&use.c=X&set.=7");
    CHECK(values.under("set.") == std::map<std::string, std::string>{{"a", "1"}});
}

TEST_CASE("secrets differ and are compared whole", "[page][http]") {
    std::set<std::string> made;
    for (int i = 0; i < 1000; ++i) made.insert(new_secret());
    CHECK(made.size() == 1000);
    CHECK(made.begin()->size() == 32);
    CHECK(same_secret("abc", "abc"));
    CHECK_FALSE(same_secret("abc", "abd"));
    CHECK_FALSE(same_secret("abc", "abcd"));
    CHECK_FALSE(same_secret("", "a"));
}
