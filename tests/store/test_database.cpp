#include "base/error.hpp"
#include "store/file/database.hpp"
#include "store/file/migrate.hpp"

#include "store/dump.hpp"
#include "store/scratch_folder.hpp"

#include <catch2/catch.hpp>

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

using namespace barrow::store;
using namespace barrow::test;
using barrow::base::Error;
using barrow::base::Kind;

namespace {

struct Ended {
    int code = 0;
    std::string text;
};

template <typename Action>
Ended how_it_ends(Action action) {
    try {
        action();
        return {};
    } catch (const Error& error) {
        return {static_cast<int>(error.kind()), error.what()};
    }
}

Ended opening(const std::filesystem::path& path) {
    return how_it_ends([&] { Database::open(path); });
}

constexpr int shop_kind = static_cast<int>(Kind::shop);
constexpr int machine = static_cast<int>(Kind::machine);
constexpr int refused = static_cast<int>(Kind::refused);

int setting(SQLite::Database& sql, const char* pragma) {
    return sql.execAndGet(std::string("PRAGMA ") + pragma).getInt();
}

int config(SQLite::Database& sql, int which) {
    int value = -1;
    sqlite3_db_config(sql.getHandle(), which, -1, &value);
    return value;
}

} // namespace

TEST_CASE("every connection is hardened, read back from SQLite itself", "[database]") {
    const ScratchFolder folder;
    const auto check = [](Database& database) {
        SQLite::Database& sql = database.sql();
        CHECK(setting(sql, "foreign_keys") == 1);
        CHECK(setting(sql, "trusted_schema") == 0);
        CHECK(setting(sql, "cell_size_check") == 1);
        CHECK(setting(sql, "synchronous") == 3); // EXTRA
        CHECK(setting(sql, "busy_timeout") == 5000);
        CHECK(sql.execAndGet("PRAGMA journal_mode").getString() == "delete");
        CHECK(config(sql, SQLITE_DBCONFIG_DEFENSIVE) == 1);
        CHECK(config(sql, SQLITE_DBCONFIG_DQS_DML) == 0);
        CHECK(config(sql, SQLITE_DBCONFIG_DQS_DDL) == 0);
        CHECK_THROWS_AS(sql.execAndGet("SELECT \"no such column\""), SQLite::Exception);
        CHECK_THROWS_AS(
            sql.exec("INSERT INTO lot VALUES (99, 1, 1, NULL, 1, 1, 1, 1, '2027-01-01', '', 0)"),
            SQLite::Exception); // a key that points nowhere
    };
    {
        Database made = Database::create(folder / "shop.db");
        check(made);
    }
    Database opened = Database::open(folder / "shop.db");
    check(opened);
}

TEST_CASE("a shop is never made over something that is there", "[database]") {
    const ScratchFolder folder;
    write_bytes(folder / "notes.txt", "shopping list");
    const Ended ended = how_it_ends([&] { Database::create(folder / "notes.txt"); });
    CHECK(ended.code == refused);
    CHECK_THAT(ended.text, Catch::Contains("exists already"));
    CHECK(bytes_of(folder / "notes.txt") == "shopping list");
}

TEST_CASE("a shop that cannot be made leaves nothing behind", "[database]") {
    const ScratchFolder folder;
    write_bytes(folder / "file", "x");
    CHECK(how_it_ends([&] { Database::create(folder / "file/shop.db"); }).code == machine);
    CHECK(how_it_ends([&] { Database::create(folder / "no/such/folder/shop.db"); }).code
          == machine);
    CHECK(folder.files() == 1);
}

TEST_CASE("a file that is not there is told with what to do", "[database]") {
    const ScratchFolder folder;
    const Ended ended = opening(folder / "shop.db");
    CHECK(ended.code == shop_kind);
    CHECK_THAT(ended.text, Catch::Contains("there is no shop") && Catch::Contains("barrow init"));
    CHECK(folder.files() == 0); // asking made no file
}

TEST_CASE("files of other kinds are no shops and stay as they are", "[database]") {
    const ScratchFolder folder;
    const auto path = folder / "other";
    for (const std::string& bytes :
         {std::string("code,name\nA,b\n"), std::string(5000, 'x'), std::string()}) {
        INFO(bytes.substr(0, 20) << ", " << bytes.size() << " bytes");
        write_bytes(path, bytes);
        const Ended ended = opening(path);
        CHECK(ended.code == shop_kind);
        CHECK_THAT(ended.text, Catch::Contains("is not a shop of this program"));
        CHECK(bytes_of(path) == bytes);
    }
}

TEST_CASE("another program's database is no shop and stays as it is", "[database]") {
    const ScratchFolder folder;
    const auto path = folder / "other.db";
    {
        SQLite::Database other(path.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
        other.exec("CREATE TABLE bird (name TEXT)");
        other.exec("PRAGMA application_id = 77");
    }
    const std::string before = bytes_of(path);
    CHECK(opening(path).code == shop_kind);
    CHECK(bytes_of(path) == before);
}

TEST_CASE("a shop from a newer version is refused, naming both versions", "[database]") {
    const ScratchFolder folder;
    const auto path = folder / "shop.db";
    {
        Database made = Database::create(path);
        made.sql().exec("PRAGMA user_version = 999");
    }
    const std::string before = dump(path);
    const Ended ended = opening(path);
    CHECK(ended.code == shop_kind);
    CHECK_THAT(ended.text,
               Catch::Contains("version 999")
                   && Catch::Contains("knows up to " + std::to_string(newest_version())));
    CHECK(dump(path) == before);
}

TEST_CASE("a damaged shop is refused as damaged", "[database]") {
    const ScratchFolder folder;
    const auto path = folder / "shop.db";
    { Database::create(path); }
    const std::string whole = bytes_of(path);
    const auto with = [&](std::size_t from, std::size_t count, char sign) {
        std::string bytes = whole;
        bytes.replace(from, count, std::string(count, sign));
        write_bytes(path, bytes);
        return opening(path);
    };
    CHECK(with(0, 16, 'x').code == shop_kind);     // the header's first words
    CHECK(with(100, 8, '\xFF').code == shop_kind); // the first page's own header
    write_bytes(path, whole.substr(0, 1000));      // cut short within the first page
    CHECK(opening(path).code == shop_kind);
}

TEST_CASE("a folder is no shop", "[database]") {
    const ScratchFolder folder;
    const Ended ended = opening(folder.path());
    CHECK(ended.code == shop_kind);
    CHECK_THAT(ended.text, Catch::Contains("is a folder"));
}

TEST_CASE("a version that no shop can have is damage", "[database]") {
    const ScratchFolder folder;
    const auto path = folder / "shop.db";
    { Database::create(path); }
    for (const char* version : {"0", "-1", "-2147483648"}) {
        {
            SQLite::Database sql(path.string(), SQLite::OPEN_READWRITE);
            sql.exec(std::string("PRAGMA user_version = ") + version);
        }
        const Ended ended = opening(path);
        CHECK(ended.code == shop_kind);
        CHECK_THAT(ended.text, Catch::Contains("is damaged") && Catch::Contains(version));
    }
}

TEST_CASE("what a file lacks or holds too large is damage, not a fault of the program",
          "[database]") {
    const ScratchFolder folder;
    Database database = Database::create(folder / "shop.db");
    for (const char* query :
         {"SELECT * FROM no_such_table", "SELECT no_such_column FROM setting",
          "INSERT INTO setting (no_such_column) VALUES (1)",
          "SELECT sum(v) FROM (SELECT 9223372036854775807 AS v UNION ALL SELECT 1)"}) {
        INFO(query);
        const Ended ended = how_it_ends([&] {
            guarded(database.path(), [&] {
                SQLite::Statement statement(database.sql(), query);
                while (statement.executeStep()) {
                }
            });
        });
        CHECK(ended.code == shop_kind);
        CHECK_THAT(ended.text, Catch::Contains("is damaged"));
    }
    CHECK_THAT(how_it_ends([&] {
                   guarded(database.path(), [&] { database.sql().exec("SELEKT 1"); });
               }).text,
               !Catch::Contains("is damaged")); // that one is
}

TEST_CASE("SQLite's extended codes mean what their first byte means", "[database]") {
    const auto ends_with = [](int code) {
        return how_it_ends(
                   [&] { guarded("shop.db", [&] { throw SQLite::Exception("said", code); }); })
            .code;
    };
    CHECK(ends_with(SQLITE_BUSY_SNAPSHOT) == shop_kind);
    CHECK(ends_with(SQLITE_CORRUPT_INDEX) == shop_kind);
    CHECK(ends_with(SQLITE_IOERR_FSYNC) == machine);
    CHECK(ends_with(SQLITE_CANTOPEN_ISDIR) == machine);
    CHECK(ends_with(SQLITE_READONLY_DIRECTORY) == machine);
}

TEST_CASE("a name too long for the system is said to be one", "[database]") {
    const ScratchFolder folder;
    const auto path = folder / std::string(300, 'n');
    for (const Ended& ended : {opening(path), how_it_ends([&] { Database::create(path); })}) {
        CHECK(ended.code == machine);
        CHECK_THAT(ended.text, Catch::Contains("File name too long"));
    }
}

TEST_CASE("a shop of an earlier program leaves its log behind when it is opened", "[database]") {
    const ScratchFolder folder;
    const auto path = folder / "shop.db";
    { Database::create(path); }
    {
        SQLite::Database sql(path.string(), SQLite::OPEN_READWRITE);
        REQUIRE(sql.execAndGet("PRAGMA journal_mode = WAL").getString() == "wal");
        sql.exec("INSERT INTO setting VALUES ('maker', 'Ada')");
        // While the other has it open, its log stays, and so do both programs.
        Database mine = Database::open(path);
        CHECK(column(mine.sql(), "SELECT value FROM setting") == std::vector<std::string>{"Ada"});
    }
    {
        Database mine = Database::open(path);
        CHECK(mine.sql().execAndGet("PRAGMA journal_mode").getString() == "delete");
        mine.sql().exec("INSERT INTO setting VALUES ('unit', 'mm')");
    }
    CHECK(folder.files() == 1);
}

TEST_CASE("a shop that another program is writing is told to be in use", "[database]") {
    const ScratchFolder folder;
    const auto path = folder / "shop.db";
    Database mine = Database::create(path);
    Database other = Database::open(path);
    other.sql().exec("BEGIN IMMEDIATE");
    mine.sql().exec("PRAGMA busy_timeout = 1"); // not to wait for five seconds here
    const Ended ended = how_it_ends([&] {
        guarded(path, [&] { mine.sql().exec("INSERT INTO setting VALUES ('maker', 'Wren')"); });
    });
    CHECK(ended.code == shop_kind);
    CHECK_THAT(ended.text, Catch::Contains("is in use by another program"));
    other.sql().exec("ROLLBACK");
    CHECK_NOTHROW(mine.sql().exec("INSERT INTO setting VALUES ('maker', 'Wren')"));
}

TEST_CASE("a disk that is full is a failure of the machine", "[database]") {
    const ScratchFolder folder;
    const auto path = folder / "shop.db";
    Database database = Database::create(path);
    // SQLite's own stand-in for a full disk: no more pages than there are.
    database.sql().exec("PRAGMA max_page_count = 1");
    const Ended ended = how_it_ends([&] {
        guarded(path, [&] {
            SQLite::Statement insert(database.sql(), "INSERT INTO setting VALUES (?, ?)");
            for (int i = 0; i < 2000; ++i) {
                insert.bind(1, std::to_string(i));
                insert.bind(2, std::string(200, 'x'));
                insert.exec();
                insert.reset();
            }
        });
    });
    CHECK(ended.code == machine);
    CHECK_THAT(ended.text, Catch::Contains("look at free space"));
}
