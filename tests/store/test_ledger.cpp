#include "base/error.hpp"
#include "store/ledger/ledger.hpp"
#include "store/ledger/transaction.hpp"

#include "store/dump.hpp"
#include "store/scratch_folder.hpp"
#include "store/small_book.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

#include <catch2/catch.hpp>

#include <map>
#include <random>
#include <set>

using namespace barrow::store;
using namespace barrow::test;
using barrow::base::Error;
using Catch::Matchers::Contains;

namespace {

using Column = std::vector<std::string>;

/// Runs a statement that the store must refuse; gives what SQLite says of it.
std::string refusal(Database& database, const std::string& statement) {
    try {
        database.sql().exec(statement);
    } catch (const SQLite::Exception& error) {
        return error.what();
    }
    return {};
}

Column balances(Database& database) {
    return column(database.sql(), "SELECT holder_id || ' ' || lot_id || ' ' || quantity || ' ' || "
                                  "value FROM balance ORDER BY holder_id, lot_id");
}

} // namespace

TEST_CASE("what each holder has follows from what moved", "[ledger]") {
    SmallBook book;
    Database& database = book.database;
    CHECK(balance_of(database, book.paper_lot, book.paper_lot).quantity == 4 * sheet_area);
    CHECK(balance_of(database, book.paper_lot, book.paper_lot).value.minor() == 400);
    CHECK(balance_of(database, book.work, book.paper_lot).quantity == sheet_area / 2);
    CHECK(balance_of(database, book.offcut, book.paper_lot).value.minor() == 50);
    CHECK(balance_of(database, written_off, book.beads_lot).quantity == 4);
    const auto kinds = value_by_kind(database);
    CHECK(kinds.at("shelf").minor() == 400 + 320 + 324);
    CHECK(kinds.at("outside").minor() == -(500 + 320 + 360));
    // What is empty has no row: the table is as large as what is there.
    move(database, book.used, "finish", book.paper_lot, book.work, made, sheet_area / 2, 50);
    CHECK(balances_of(database, book.work).empty());
}

TEST_CASE("nothing goes below zero, in quantity or in value", "[ledger]") {
    SmallBook book;
    Database& database = book.database;
    const std::string before = dump(database.sql());
    const auto taking = [&](std::int64_t quantity, std::int64_t value) {
        CHECK_THROWS_AS(move(database, book.used, "use", book.beads_lot, book.beads_lot, book.work,
                             quantity, value),
                        SQLite::Exception);
    };
    taking(37, 0);  // 36 are there
    taking(1, 325); // worth 324
    // A holder that never had anything of this lot has nothing to give either.
    CHECK_THROWS_AS(move(database, book.used, "use", book.beads_lot, book.offcut, book.work, 1, 0),
                    SQLite::Exception);
    CHECK(dump(database.sql()) == before);
    move(database, book.used, "use", book.beads_lot, book.beads_lot, book.work, 36, 324);
    CHECK(balances_of(database, book.beads_lot).empty());
}

TEST_CASE("journals are owed by what they were made of, and by nothing else", "[ledger]") {
    SmallBook book;
    Database& database = book.database;
    const auto journal = add_holder(database, "journal");
    move(database, book.used, "finish", 0, made, journal, 1, 50);
    CHECK(balance_of(database, made, 0).quantity == -1);
    CHECK_THROWS_AS(move(database, book.used, "sell", 0, journal, sold, 2, 50), SQLite::Exception);
    CHECK_THROWS_AS(move(database, book.used, "finish", book.beads_lot, made, book.work, 1, 0),
                    SQLite::Exception);
}

TEST_CASE("every table is append-only by trigger, or known to change", "[ledger][append-only]") {
    // What a maker may change at any time, what follows from other tables, and fixed lists.
    const std::set<std::string> changing = {
        "setting",         "supplier",      "material",    "design",         "stocktake",
        "stocktake_line",  "balance",       "kind_value",  "received_value", "quarter",
        "quarter_balance", "quarter_value", "holder_kind", "movement_kind"};
    SmallBook book;
    SQLite::Database& sql = book.database.sql();
    for (const std::string& table : table_names(sql)) {
        INFO(table);
        const auto guarded_by = [&](const std::string& trigger) {
            return column(sql, "SELECT 1 FROM sqlite_schema WHERE type = 'trigger' AND name = '"
                                   + trigger + "' AND tbl_name = '" + table + "'")
                       .size()
                   == 1;
        };
        const bool kept = changing.count(table) == 0;
        CHECK(guarded_by(table + "_stays") == kept);
        CHECK(guarded_by(table + "_remains") == kept);
    }
}

TEST_CASE("the ledger is append-only, whoever asks", "[ledger][append-only]") {
    SmallBook book;
    Database& database = book.database;
    SQLite::Database& sql = database.sql();
    // One row each of what the workshop writes, so that there is something to change.
    sql.exec("INSERT INTO design VALUES (1, 'leaflet', 'Leaflet')");
    sql.exec("INSERT INTO design_text VALUES (1, 1, 1, '', 'a.toml', '2027-03-01')");
    sql.exec("INSERT INTO batch VALUES (" + std::to_string(book.work) + ", 1, 'cut')");
    const std::string work = std::to_string(book.work);
    const std::string used = std::to_string(book.used);
    sql.exec("INSERT INTO batch_event VALUES (1, " + work + ", " + used + ", 'cut')");
    sql.exec("INSERT INTO batch_run VALUES (" + work
             + ", 0, 1, 1, 0, 50, 0, 0, 'leaf', 'Leaf', 1000)");
    sql.exec("INSERT INTO cut_sheet VALUES (1, " + used + ", " + work + ", NULL, "
             + std::to_string(book.paper_lot) + ", 100, 80, 100, 4000, 4000, 50, 0)");
    sql.exec("INSERT INTO finished_run VALUES (" + used + ", " + work + ", 0, 1, 0, 50, 0, 0)");
    const auto journal = std::to_string(add_holder(database, "journal"));
    sql.exec("INSERT INTO journal VALUES (" + journal + ", " + used + ", '1-01', " + work
             + ", 0, 50, 0, 0, 'good', '', NULL, '')");
    sql.exec("INSERT INTO sale VALUES (" + used + ", " + journal + ", 900)");

    sql.exec("INSERT INTO cost_order VALUES (" + used + ", 'moving-average')");

    const std::map<std::string, std::string> changes = {
        {"movement", "value = value + 1"},
        {"posting", "note = 'later'"},
        {"lot", "cost = cost + 1"},
        {"offcut", "width = width + 1"},
        {"journal", "materials = materials + 1"},
        {"batch", "number = number + 1"},
        {"batch_event", "status = 'abandoned'"},
        {"batch_run", "journals = journals + 1"},
        {"cost_order", "method = 'pick-the-lot'"},
        {"design_text", "text = 'other'"},
        {"holder", "kind = 'sold'"},
        {"cut_sheet", "cost = cost + 1"},
        {"finished_run", "journals = journals + 1"},
        {"sale", "price = price + 1"},
    };
    const std::string before = dump(sql);
    sql.exec("PRAGMA foreign_keys = OFF"); // so that only the triggers stand in the way
    for (const auto& [table, change] : changes) {
        INFO(table);
        CHECK(column(sql, "SELECT count(*) FROM " + table).at(0) != "0");
        CHECK_THAT(refusal(database, "UPDATE " + table + " SET " + change),
                   Contains("append-only"));
        CHECK_THAT(refusal(database, "DELETE FROM " + table), Contains("append-only"));
    }
    CHECK(dump(sql) == before);
    // Where a thing lies and what is noted about it is no part of the ledger.
    CHECK(refusal(database, "UPDATE offcut SET place = 'tin', note = 'torn'").empty());
    CHECK(refusal(database, "UPDATE journal SET place = 'tin', condition = 'second'").empty());
}

TEST_CASE("a posting is reversed once, and only by a later one", "[ledger]") {
    SmallBook book;
    const auto reversing = [&](std::int64_t which) {
        Posting posting;
        posting.kind = "reverse";
        posting.made_on = barrow::base::read_date("2027-03-08", "");
        posting.reverses = which;
        return add_posting(book.database, posting);
    };
    const auto first = reversing(book.spoiled);
    CHECK_FALSE(stands(book.database, book.spoiled));
    CHECK_THROWS_AS(reversing(book.spoiled), SQLite::Exception);
    const auto second = reversing(first);
    CHECK(stands(book.database, book.spoiled));
    CHECK_FALSE(stands(book.database, first));
    CHECK(origin_of(book.database, second) == book.spoiled);
    CHECK_THROWS_AS(reversing(second + 1), SQLite::Exception); // itself
    CHECK_THROWS_AS(reversing(999), SQLite::Exception);        // not there
}

TEST_CASE("balances are what plain addition makes of a long random ledger", "[ledger]") {
    // The model is a map and two additions; amounts large enough to notice a narrow sum.
    SmallBook book;
    Database& database = book.database;
    std::map<std::pair<std::int64_t, std::int64_t>, std::pair<std::int64_t, std::int64_t>> model;
    for (const auto posting : {book.received, book.used, book.spoiled})
        for (const Movement& moved : movements_of(database, posting)) {
            model[{moved.from, *moved.lot}].first -= moved.quantity;
            model[{moved.from, *moved.lot}].second -= moved.value.minor();
            model[{moved.to, *moved.lot}].first += moved.quantity;
            model[{moved.to, *moved.lot}].second += moved.value.minor();
        }
    const std::vector<std::int64_t> holders = {
        outside,     book.paper_lot, book.beads_lot,  book.work,
        book.offcut, written_off,    book.ribbon_lot, made};
    const std::vector<std::int64_t> lots = {book.paper_lot, book.beads_lot, book.ribbon_lot};
    std::mt19937_64 random(20270306);
    int refused = 0;
    for (int step = 0; step < 3000; ++step) {
        const auto from = holders[random() % holders.size()];
        const auto to = holders[random() % holders.size()];
        const auto lot = lots[random() % lots.size()];
        if (from == to) continue;
        const auto quantity = static_cast<std::int64_t>(random() % 1'000'000'000'000);
        const auto value = static_cast<std::int64_t>(random() % 100'000);
        auto& giver = model[{from, lot}];
        const bool may = from == outside || (giver.first >= quantity && giver.second >= value);
        if (!may) {
            ++refused;
            CHECK_THROWS_AS(move(database, book.used, "use", lot, from, to, quantity, value),
                            SQLite::Exception);
            continue;
        }
        move(database, book.used, "use", lot, from, to, quantity, value);
        giver.first -= quantity;
        giver.second -= value;
        model[{to, lot}].first += quantity;
        model[{to, lot}].second += value;
    }
    CHECK(refused > 500);
    Column expected;
    for (const auto& [key, held] : model)
        if (held.first != 0 || held.second != 0)
            expected.push_back(std::to_string(key.first) + " " + std::to_string(key.second) + " "
                               + std::to_string(held.first) + " " + std::to_string(held.second));
    CHECK(balances(database) == expected);
}

TEST_CASE("a transaction keeps all, a dry run and an error nothing", "[transaction]") {
    SmallBook book;
    Database& database = book.database;
    const auto waste = [&] {
        move(database, book.spoiled, "write_off", book.beads_lot, book.beads_lot, written_off, 1,
             9);
    };
    const std::string before = dump(database.sql());
    write(database, Mode::dry_run, waste);
    CHECK(dump(database.sql()) == before);
    CHECK_THROWS_AS(write(database, Mode::commit,
                          [&] {
                              waste();
                              throw barrow::base::refused("no");
                          }),
                    Error);
    CHECK(dump(database.sql()) == before);
    write(database, Mode::commit, waste);
    CHECK(dump(database.sql()) != before);
    CHECK(balance_of(database, written_off, book.beads_lot).quantity == 5);
}

TEST_CASE("what breaks an invariant is not kept, although SQLite would take it",
          "[transaction][conservation]") {
    SmallBook book;
    Database& database = book.database;
    const std::string before = dump(database.sql());
    const auto message = [&](const std::function<void()>& action) -> std::string {
        try {
            write(database, Mode::commit, action);
        } catch (const Error& error) {
            return error.what();
        }
        return {};
    };
    // Part of a unit taken off a shelf.
    CHECK_THAT(message([&] {
                   move(database, book.used, "use", book.paper_lot, book.paper_lot, book.work, 7,
                        0);
               }),
               Contains("whole number of units"));
    // A lot that receives other than it says.
    CHECK_THAT(message([&] {
                   move(database, book.received, "receive", book.beads_lot, outside, book.beads_lot,
                        1, 9);
               }),
               Contains("received"));
    // An offcut grown beyond its size.
    CHECK_THAT(message([&] {
                   move(database, book.used, "keep", book.paper_lot, book.work, book.offcut, 10, 0);
               }),
               Contains("does not fit its size"));
    // A journal worth more than what went into it.
    CHECK_THAT(message([&] {
                   move(database, book.used, "finish", 0, made, add_holder(database, "journal"), 1,
                        51);
               }),
               Contains("made of"));
    CHECK(dump(database.sql()) == before);
}
