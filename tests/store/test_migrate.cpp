#include "base/error.hpp"
#include "store/checks/checks.hpp"
#include "store/file/database.hpp"
#include "store/file/migrate.hpp"

#include "store/dump.hpp"
#include "store/scratch_folder.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

#include <catch2/catch.hpp>

#include <algorithm>
#include <iostream>
#include <stdexcept>
#include <string>
#include <sys/wait.h>
#include <unistd.h>
#include <vector>

using namespace barrow::store;
using namespace barrow::test;
using barrow::base::Error;

namespace {

/// A shop as it was in version `version`, with something in it.
void make_old_shop(const std::filesystem::path& path, int version) {
    SQLite::Database sql(path.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    migrate(sql, version);
    sql.exec("INSERT INTO setting VALUES ('maker', 'Wren Aldous')");
    sql.exec("INSERT INTO supplier (code, name) VALUES ('PELL', 'Pellwether Papermakers')");
    sql.exec("INSERT INTO material (code, name, form, supplier_id, fresh_width, fresh_height) "
             "VALUES ('FERN', 'Fern paper', 'sheet', 1, 100, 80)");
    sql.exec("INSERT INTO posting (kind, made_on, recorded_at) "
             "VALUES ('receive', '2026-11-05', '2026-11-05T10:00:00Z')");
    sql.exec("INSERT INTO holder (id, kind) VALUES (5, 'shelf')");
    sql.exec(
        "INSERT INTO lot (id, posting_id, material_id, unit_width, unit_height, quantity, cost, "
        "received_on) VALUES (5, 1, 1, 100, 80, 24000, 270, '2026-11-05')");
    sql.exec(
        "INSERT INTO movement (posting_id, kind, lot_id, from_holder, to_holder, quantity, value) "
        "VALUES (1, 'receive', 5, 1, 5, 24000, 270)");
}

} // namespace

TEST_CASE("a shop of every older version is brought up to date with all that is in it",
          "[migrate]") {
    for (int version = 1; version < newest_version(); ++version) {
        INFO("from version " << version);
        const ScratchFolder folder;
        const auto path = folder / "shop.db";
        make_old_shop(path, version);
        const std::string before = dump(path);
        Database shop = Database::open(path);
        CHECK(version_of(shop.sql()) == newest_version());
        CHECK(all_faults(shop).empty());
        CHECK(column(shop.sql(), "SELECT name FROM supplier")
              == std::vector<std::string>{"Pellwether Papermakers"});
        CHECK(column(shop.sql(), "SELECT value FROM balance WHERE holder_id = 5")
              == std::vector<std::string>{"270"});
        // What it was before stands beside it, to the byte of its content.
        const auto kept = folder / ("shop.db.version-" + std::to_string(version));
        REQUIRE(std::filesystem::exists(kept));
        CHECK(dump(kept) == before);
    }
}

TEST_CASE("a shop of today is opened as it is, without a copy", "[migrate]") {
    const ScratchFolder folder;
    const auto path = folder / "shop.db";
    { Database::create(path); }
    const std::string before = dump(path);
    { Database::open(path); }
    CHECK(dump(path) == before);
    CHECK(folder.files() == 1);
}

namespace {

/// What makes the step from one structure to the next fail when most of it is done: the last table
/// it makes is there already, or, of a step that makes none, the last column or kind of movement it
/// adds, or the last trigger it makes.
std::string in_the_way(SQLite::Database& sql, SQLite::Database& later) {
    const auto tables = [](SQLite::Database& of) {
        return column(of, "SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY rowid");
    };
    const auto last_column = [](SQLite::Database& of, const std::string& table) {
        return column(of, "SELECT name FROM pragma_table_info('" + table + "') ORDER BY cid")
            .back();
    };
    const std::vector<std::string> before = tables(sql);
    const std::string last = tables(later).back();
    if (std::find(before.begin(), before.end(), last) == before.end())
        return "CREATE TABLE \"" + last + "\" (in_the_way INTEGER)";
    for (const std::string& table : before)
        if (const std::string added = last_column(later, table); added != last_column(sql, table))
            return "ALTER TABLE \"" + table + "\" ADD COLUMN \"" + added + "\" INTEGER";
    for (const std::string& kind : column(later, "SELECT name FROM movement_kind ORDER BY name"))
        if (column(sql, "SELECT name FROM movement_kind WHERE name = '" + kind + "'").empty())
            return "INSERT INTO movement_kind VALUES ('" + kind + "')";
    const auto triggers = [](SQLite::Database& of) {
        return column(of, "SELECT name FROM sqlite_schema WHERE type = 'trigger' ORDER BY rowid");
    };
    if (const std::string made = triggers(later).back(); made != triggers(sql).back())
        return "CREATE TRIGGER " + made + " BEFORE DELETE ON setting BEGIN SELECT 1; END";
    throw std::logic_error("a step that makes no table and no trigger, adds no column and no kind "
                           "of movement");
}

} // namespace

TEST_CASE("a migration that fails leaves no trace in the file", "[migrate]") {
    for (int version = 0; version < newest_version(); ++version) {
        INFO("from version " << version);
        const ScratchFolder folder;
        const auto path = folder / "shop.db";
        std::string before;
        {
            SQLite::Database sql(path.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
            migrate(sql, version);
            SQLite::Database later(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
            migrate(later, version + 1);
            sql.exec(in_the_way(sql, later));
            before = dump(sql);
            CHECK_THROWS(migrate(sql, version + 1));
            CHECK(dump(sql) == before);
            CHECK(version_of(sql) == version);
            CHECK(column(sql, "PRAGMA foreign_keys").at(0) == "1"); // switched on again
        }
        CHECK(dump(path) == before);
        if (version == 0) continue;
        CHECK_THROWS_AS(Database::open(path), Error);
        CHECK(dump(path) == before);
    }
}

TEST_CASE("a migration that would leave rows without their parents is not kept", "[migrate]") {
    if (newest_version() < 2) return;
    SQLite::Database sql(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    migrate(sql, 1);
    sql.exec("PRAGMA foreign_keys = OFF");
    sql.exec("INSERT INTO material (code, name, form, supplier_id, fresh_width, fresh_height) "
             "VALUES ('FERN', 'Fern paper', 'sheet', 77, 100, 80)");
    CHECK_THROWS_AS(migrate(sql, 2), Error);
    CHECK(version_of(sql) == 1);
}

TEST_CASE("a copy of an earlier time does not stand for the one now needed", "[migrate]") {
    const ScratchFolder folder;
    const auto path = folder / "shop.db";
    const auto kept = folder / "shop.db.version-3";
    write_bytes(kept, ""); // as one cut short by an earlier program
    make_old_shop(path, 3);
    const std::string before = dump(path);
    { Database::open(path); }
    CHECK(bytes_of(kept).empty()); // not ours to replace
    CHECK(dump(folder / "shop.db.version-3-2") == before);
    // Migrated again from the same state, as after a kill: one copy is enough.
    std::filesystem::remove(path);
    make_old_shop(path, 3);
    { Database::open(path); }
    CHECK(folder.files() == 3);
}

TEST_CASE("a damaged older shop is not migrated", "[migrate]") {
    const ScratchFolder folder;
    const auto path = folder / "shop.db";
    make_old_shop(path, 8);
    std::string bytes = bytes_of(path);
    {
        SQLite::Database sql(path.string(), SQLite::OPEN_READONLY);
        const auto page = static_cast<std::size_t>(
            sql.execAndGet("SELECT rootpage FROM sqlite_schema WHERE name = 'supplier'").getInt());
        bytes.replace((page - 1) * 4096 + 8, 100, 100, '\xFF');
    }
    write_bytes(path, bytes);
    CHECK_THROWS_WITH(Database::open(path), Catch::Contains("is damaged"));
    CHECK(bytes_of(path) == bytes);
    CHECK(folder.files() == 1);
}

TEST_CASE("of many first openings after an upgrade none fails", "[migrate]") {
    for (int round = 0; round < 5; ++round) {
        const ScratchFolder folder;
        const auto path = folder / "shop.db";
        make_old_shop(path, 1 + round);
        std::vector<pid_t> children;
        for (int i = 0; i < 4; ++i) {
            const pid_t child = fork();
            REQUIRE(child >= 0);
            if (child == 0) {
                int code = 0;
                try {
                    Database::open(path);
                } catch (const std::exception& error) {
                    std::cerr << error.what() << "\n";
                    code = 1;
                }
                _exit(code);
            }
            children.push_back(child);
        }
        for (const pid_t child : children) {
            int status = -1;
            waitpid(child, &status, 0);
            CHECK(status == 0);
        }
        CHECK(folder.files() == 2); // the shop and one copy
    }
}
