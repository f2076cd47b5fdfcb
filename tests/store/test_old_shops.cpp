#include "store/checks/checks.hpp"
#include "store/file/database.hpp"
#include "store/file/migrate.hpp"

#include "store/dump.hpp"
#include "store/scratch_folder.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

using namespace barrow::store;
using namespace barrow::test;
using Texts = std::vector<std::string>;

namespace {

/// The version whose rows stand in tests/store/old_shops.
constexpr int kept_version = 9;

SQLite::Database raw(const std::filesystem::path& path) {
    return SQLite::Database(path.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
}

bool is_among(const Texts& texts, const std::string& text) {
    return std::find(texts.begin(), texts.end(), text) != texts.end();
}

Texts columns_of(SQLite::Database& sql, const std::string& table,
                 const std::string& database = "main") {
    std::string query = "SELECT name FROM pragma_table_info('" + table;
    query += "', '" + database + "')";
    return column(sql, query);
}

std::string joined(const Texts& names) {
    std::string text;
    for (const std::string& name : names) text += (text.empty() ? "\"" : ", \"") + name + "\"";
    return text;
}

/// The shop of the kept version.
void make_kept(const std::filesystem::path& path) {
    SQLite::Database sql = raw(path);
    migrate(sql, kept_version);
    sql.exec("PRAGMA foreign_keys = OFF"); // the rows stand table by table
    sql.exec("BEGIN");
    sql.exec(bytes_of(BARROW_SOURCE_DIR "/tests/store/old_shops/version_9.sql"));
    sql.exec("COMMIT");
}

/// The same shop as an earlier version would have kept it: what there was no table or column for is
/// left out. Derived tables fill themselves from the movements.
void make_older(const std::filesystem::path& path, int version, const std::filesystem::path& kept) {
    SQLite::Database sql = raw(path);
    migrate(sql, version);
    sql.exec("PRAGMA foreign_keys = OFF");
    sql.exec("ATTACH '" + kept.string() + "' AS kept");
    sql.exec("BEGIN");
    const Texts known = table_names(sql);
    // Movements meet triggers that look at holders and lots; quarters, triggers of movements.
    Texts order = known;
    const auto place = [](const std::string& table) {
        return table.rfind("quarter", 0) == 0 ? 2 : table == "movement" ? 1 : 0;
    };
    std::stable_sort(order.begin(), order.end(),
                     [&](const auto& one, const auto& other) { return place(one) < place(other); });
    const Texts derived = {"balance", "kind_value", "received_value", "holder_kind",
                           "movement_kind"};
    for (const std::string& table : order) {
        if (is_among(derived, table)) continue;
        Texts shared = columns_of(sql, table);
        const Texts there = columns_of(sql, table, "kept");
        shared.erase(std::remove_if(shared.begin(), shared.end(),
                                    [&](const auto& name) { return !is_among(there, name); }),
                     shared.end());
        std::string insert = "INSERT INTO main." + table + " (" + joined(shared);
        insert += ") SELECT " + joined(shared) + " FROM kept." + table;
        if (table == "holder") insert += " WHERE id > 4"; // every shop has the first four
        sql.exec(insert + (table == "movement" ? " ORDER BY id" : ""));
    }
    sql.exec("COMMIT");
}

/// Rows of a table in the columns given, in order.
Texts rows(SQLite::Database& sql, const std::string& table, const Texts& columns) {
    std::string row;
    for (const std::string& name : columns)
        row += (row.empty() ? "quote(\"" : " || ',' || quote(\"") + name + "\")";
    return column(sql, "SELECT " + row + " AS line FROM " + table + " ORDER BY line");
}

} // namespace

TEST_CASE("a shop in which everything has happened keeps all of it from every older version",
          "[migrate]") {
    const ScratchFolder folder;
    make_kept(folder / "kept.db");
    write_bytes(folder / "today.db", bytes_of(folder / "kept.db"));
    Database today = Database::open(folder / "today.db");
    REQUIRE(all_faults(today).empty());
    for (int version = 1; version <= kept_version; ++version) {
        INFO("from version " << version);
        const auto path = folder / ("shop" + std::to_string(version));
        make_older(path, version, folder / "kept.db");
        std::vector<std::pair<std::string, Texts>> had;
        {
            SQLite::Database old = raw(path);
            for (const std::string& table : table_names(old))
                had.emplace_back(table, columns_of(old, table));
            CHECK(column(old, "SELECT count(*) FROM batch_run") == Texts{"3"});
        }
        Database shop = Database::open(path);
        CHECK(all_faults(shop) == Texts{});
        for (const auto& [table, columns] : had) {
            INFO(table);
            const Texts now = columns_of(shop.sql(), table);
            Texts shared;
            std::copy_if(columns.begin(), columns.end(), std::back_inserter(shared),
                         [&](const auto& name) { return is_among(now, name); });
            CHECK(rows(shop.sql(), table, shared) == rows(today.sql(), table, shared));
        }
        // What a migration works out from what there was.
        for (const char* table : {"received_value", "kind_value", "balance"})
            CHECK(rows(shop.sql(), table, columns_of(shop.sql(), table))
                  == rows(today.sql(), table, columns_of(today.sql(), table)));
        CHECK(rows(shop.sql(), "batch_run", {"batch_id", "run", "code", "name"})
              == rows(today.sql(), "batch_run", {"batch_id", "run", "code", "name"}));
    }
}
