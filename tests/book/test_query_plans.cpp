#include "book/shop.hpp"

#include "workshop/books/history.hpp"
#include "workshop/books/reports.hpp"

#include <SQLiteCpp/SQLiteCpp.h>
#include <catch2/catch.hpp>
#include <sqlite3.h>

#include <functional>
#include <set>

using barrow::store::Database;
using barrow::test::Shop;
using barrow::test::stock_up;
using namespace barrow;

namespace {

/// Every statement that runs on the connection while `action` does.
std::set<std::string> statements(Database& database, const std::function<void()>& action) {
    std::set<std::string> texts;
    const auto note = [](unsigned, void* found, void* statement, void*) {
        static_cast<std::set<std::string>*>(found)->insert(
            sqlite3_sql(static_cast<sqlite3_stmt*>(statement)));
        return 0;
    };
    sqlite3* handle = database.sql().getHandle();
    sqlite3_trace_v2(handle, SQLITE_TRACE_STMT, note, &texts);
    action();
    sqlite3_trace_v2(handle, 0, nullptr, nullptr);
    return texts;
}

/// Lines of EXPLAIN QUERY PLAN that read through a whole table, "SCAN movement" and the like.
std::vector<std::string> scans(Database& database, const std::string& text) {
    std::vector<std::string> found;
    if (text.substr(0, 6) != "SELECT" && text.substr(0, 4) != "WITH") return found;
    SQLite::Statement query(database.sql(), "EXPLAIN QUERY PLAN " + text);
    while (query.executeStep()) {
        const std::string line = query.getColumn(3).getString();
        if (line.substr(0, 4) == "SCAN") found.push_back(line + " in " + text);
    }
    return found;
}

/// Requires that nothing is read through but the tables named.
void only_scans(Database& database, const std::vector<std::string>& allowed,
                const std::function<void()>& action) {
    const auto texts = statements(database, action);
    CHECK(texts.size() > 1);
    for (const std::string& text : texts)
        for (const std::string& scan : scans(database, text)) {
            bool fits = false;
            for (const std::string& table : allowed)
                fits = fits || scan.substr(5, table.size() + 1) == table + " ";
            INFO(scan);
            CHECK(fits);
        }
}

std::string some_label(Shop& shop) {
    return shop.json("offcut list").at("offcuts").at(0).at("code");
}

} // namespace

TEST_CASE("a scan of the ledger would be noticed", "[plans]") {
    Shop shop;
    Database database = shop.open();
    CHECK(scans(database, "SELECT count(*) FROM movement WHERE value > 3").size() == 1);
    CHECK(scans(database, "SELECT value FROM movement WHERE lot_id = 3").empty());
}

TEST_CASE("histories read the ledger through its indices only", "[plans][history]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 5");
    shop.done("journal sell 1-01 --price 9");
    shop.done("batch plan leaflet --make 1");
    const std::string label = some_label(shop);
    Database database = shop.open();
    // Settings and decisions are as many as were taken, not as much as was moved.
    const std::vector<std::string> allowed = {"setting", "cost_order"};
    only_scans(database, allowed,
               [&] { workshop::history(database, workshop::Subject::material, "RIB"); });
    only_scans(database, allowed,
               [&] { workshop::history(database, workshop::Subject::lot, "5"); });
    only_scans(database, allowed,
               [&] { workshop::history(database, workshop::Subject::offcut, label); });
    only_scans(database, allowed,
               [&] { workshop::history(database, workshop::Subject::batch, "1"); });
    only_scans(database, allowed,
               [&] { workshop::history(database, workshop::Subject::batch, "2"); });
    only_scans(database, allowed,
               [&] { workshop::history(database, workshop::Subject::journal, "1-01"); });
}

TEST_CASE("reports read the entries of their period, and what is on hand", "[plans][reports]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 5");
    shop.done("journal sell 1-01 --price 9");
    shop.done("reverse " + std::to_string(shop.entry()));
    Database database = shop.open();
    const auto day = [](const char* text) { return base::read_date(text, "test"); };
    const base::Date from = day("2027-03-01");
    const base::Date to = day("2027-03-31");
    const std::vector<std::string> catalogue = {"setting", "cost_order", "material"};
    only_scans(database, catalogue, [&] { workshop::usage(database, from, to); });
    only_scans(database, catalogue, [&] { workshop::year(database, from, to); });
    only_scans(database, catalogue, [&] { workshop::stock_on(database, to, to); });
    // These list what is there: the live balances are as large as that.
    std::vector<std::string> live = catalogue;
    live.emplace_back("balance");
    only_scans(database, live, [&] { workshop::slow_stock(database, 30, to); });
    only_scans(database, live, [&] { workshop::box_by_age(database, to); });
}
