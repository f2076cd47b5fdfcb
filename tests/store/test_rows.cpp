#include "base/error.hpp"
#include "store/file/rows.hpp"

#include <catch2/catch.hpp>

#include <SQLiteCpp/Exception.h>

using namespace barrow;
using namespace barrow::store;

namespace {

const char* const all = "SELECT number, name, amount, day, maybe FROM thing ORDER BY number";

Database with_things() {
    Database database = Database::create(":memory:");
    execute(database, "CREATE TABLE thing (number INTEGER PRIMARY KEY, name TEXT, amount INTEGER, "
                      "day TEXT, maybe INTEGER)");
    return database;
}

std::int64_t add(Database& database, const std::string& name,
                 const std::optional<base::Money>& maybe) {
    return insert(database, "INSERT INTO thing (name, amount, day, maybe) VALUES (?, ?, ?, ?)",
                  name, base::Money::of_minor(1234), base::read_date("2027-03-06", "day"), maybe);
}

} // namespace

TEST_CASE("a row gives back what was written, column by column", "[rows]") {
    Database database = with_things();
    CHECK(add(database, "it's; \"moss\" \xC3\xA9", std::nullopt) == 1);
    CHECK(add(database, "", base::Money::of_minor(-5)) == 2);
    Query query(database, all);
    REQUIRE(query.next());
    CHECK(query.number() == 1);
    CHECK(query.text() == "it's; \"moss\" \xC3\xA9");
    CHECK(query.money() == base::Money::of_minor(1234));
    CHECK(query.date("day") == base::read_date("2027-03-06", "day"));
    CHECK_FALSE(query.maybe_money());
    REQUIRE(query.next());
    CHECK(query.yes());
    CHECK(query.text().empty());
    CHECK(query.maybe_number() == 1234);
    CHECK(query.text() == "2027-03-06");
    CHECK(query.maybe_money() == base::Money::of_minor(-5));
    CHECK_FALSE(query.next());
}

TEST_CASE("two queries of one text do not disturb each other", "[rows]") {
    Database database = with_things();
    for (const char* name : {"a", "b", "c"}) add(database, name, std::nullopt);
    std::string pairs;
    Query outer(database, all);
    while (outer.next()) {
        outer.number();
        const std::string first = outer.text();
        Query inner(database, all);
        while (inner.next()) {
            inner.number();
            pairs += first + inner.text() + " ";
        }
    }
    CHECK(pairs == "aa ab ac ba bb bc ca cb cc ");
}

TEST_CASE("a statement that is used again keeps no value of the time before", "[rows]") {
    Database database = with_things();
    add(database, "a", base::Money::of_minor(7));
    add(database, "b", std::nullopt);
    CHECK(number_of(database, "SELECT count(*) FROM thing WHERE maybe IS ?",
                    std::optional<std::int64_t>(7))
          == 1);
    CHECK(number_of(database, "SELECT count(*) FROM thing WHERE maybe IS ?",
                    std::optional<std::int64_t>())
          == 1);
    CHECK(number_of(database, "SELECT count(*) FROM thing WHERE maybe IS ?") == 1);
}

TEST_CASE("what is no row, no column, no date or no statement is an error", "[rows]") {
    Database database = with_things();
    CHECK_THROWS_AS(number_of(database, "SELECT number FROM thing"), SQLite::Exception);
    CHECK_THROWS_AS(Query(database, "SELECT nonsense FROM thing"), SQLite::Exception);
    CHECK_THROWS_AS(execute(database, "DELETE FROM thing", 1), SQLite::Exception);
    add(database, "a", std::nullopt);
    Query query(database, "SELECT name FROM thing");
    REQUIRE(query.next());
    CHECK_THROWS_AS(query.date("thing name"), base::Error);
    CHECK_THROWS_AS(query.number(), SQLite::Exception); // a second column
    // After an error the same text can be asked again.
    CHECK_THROWS_AS(execute(database, "INSERT INTO thing (number) VALUES (?)", 1),
                    SQLite::Exception);
    CHECK(insert(database, "INSERT INTO thing (number) VALUES (?)", 9) == 9);
}
