#include "base/error.hpp"
#include "store/checks/copies.hpp"
#include "store/file/migrate.hpp"

#include "store/dump.hpp"
#include "store/scratch_folder.hpp"
#include "store/small_book.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

#include <catch2/catch.hpp>

using namespace barrow::store;
using namespace barrow::test;
using barrow::base::Error;
using barrow::base::Kind;
using Catch::Matchers::Contains;

namespace {

/// Kind and words of what stands against a file when it is to become a shop; nothing when it is
/// sound.
std::pair<int, std::string> against(const std::filesystem::path& path) {
    const ScratchFolder folder;
    try {
        put_in_place(path, folder / "shop.db", folder / "kept.db");
    } catch (const Error& error) {
        return {static_cast<int>(error.kind()), error.what()};
    }
    return {0, ""};
}

constexpr int shop = static_cast<int>(Kind::shop);

} // namespace

TEST_CASE("a copy is whole, stands alone and is sound", "[copies]") {
    const ScratchFolder folder;
    SmallBook book(folder / "shop.db");
    copy_to(book.database, folder / "copy.db");
    CHECK(dump(folder / "copy.db") == dump(book.database.sql()));
    CHECK_FALSE(std::filesystem::exists(folder / "copy.db-wal"));
    const std::string bytes = bytes_of(folder / "copy.db");
    CHECK(against(folder / "copy.db").first == 0);
    CHECK(bytes_of(folder / "copy.db") == bytes); // looking does not touch it
}

TEST_CASE("a copy is of one moment while another program writes", "[copies]") {
    const ScratchFolder folder;
    SmallBook book(folder / "shop.db");
    const std::string before = dump(book.database.sql());
    Database other = Database::open(folder / "shop.db");
    other.sql().exec("BEGIN IMMEDIATE");
    other.sql().exec("INSERT INTO setting VALUES ('maker', 'Ada')");
    copy_to(book.database, folder / "copy.db"); // half of a transaction is not in it
    CHECK(dump(folder / "copy.db") == before);
    other.sql().exec("COMMIT");
    copy_to(book.database, folder / "later.db");
    CHECK(dump(folder / "later.db") == dump(other.sql()));
}

TEST_CASE("a copy that cannot be written leaves nothing", "[copies]") {
    const ScratchFolder folder;
    SmallBook book(folder / "shop.db");
    const auto files = folder.files();
    CHECK_THROWS_AS(copy_to(book.database, folder / "no/such/copy.db"), Error);
    std::filesystem::create_directory(folder / "taken");
    write_bytes(folder / "taken/file", "x");
    CHECK_THROWS_AS(copy_to(book.database, folder / "taken"), Error);
    CHECK(folder.files() == files + 1);
}

TEST_CASE("what is no sound shop is not put in place of one", "[copies]") {
    const ScratchFolder folder;
    const auto path = folder / "copy.db";
    CHECK(against(path).first == shop); // not there
    write_bytes(path, "shopping list");
    CHECK(against(path).first == shop);
    std::filesystem::remove(path);
    {
        SmallBook book(folder / "shop.db");
        copy_to(book.database, path);
    }
    const std::string whole = bytes_of(path);
    write_bytes(path, whole.substr(0, whole.size() / 2)); // a copy cut short
    CHECK(against(path).first == shop);
    write_bytes(path, whole);
    {
        SQLite::Database sql(path.string(), SQLite::OPEN_READWRITE);
        sql.exec("UPDATE balance SET value = value + 1 WHERE quantity = 32000");
    }
    CHECK(against(path).first == shop);
    CHECK_THAT(against(path).second, Contains("is not sound"));
    write_bytes(path, whole);
    {
        SQLite::Database sql(path.string(), SQLite::OPEN_READWRITE);
        sql.exec("PRAGMA user_version = 999");
    }
    CHECK(against(path).first == shop);
    CHECK_THAT(against(path).second, Contains("version 999"));
}

TEST_CASE("a copy of an older version is verified without being changed", "[copies]") {
    const ScratchFolder folder;
    const auto path = folder / "old.db";
    {
        SQLite::Database sql(path.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
        migrate(sql, 1);
    }
    const std::string bytes = bytes_of(path);
    CHECK(against(path).first == 0);
    CHECK(bytes_of(path) == bytes);
    CHECK(folder.files() == 1);
}

TEST_CASE("what is replaced is kept, its latest entries included", "[copies]") {
    const ScratchFolder folder;
    {
        SmallBook book(folder / "copy-of.db");
        copy_to(book.database, folder / "copy.db");
    }
    const std::string copied = dump(folder / "copy.db");
    std::string replaced;
    {
        Database now = Database::create(folder / "first.db");
        REQUIRE(now.sql().execAndGet("PRAGMA journal_mode = WAL").getString() == "wal");
        now.sql().exec("INSERT INTO setting VALUES ('maker', 'Ada')");
        replaced = dump(now.sql());
        // As after a power cut: what was written last stands in the log alone.
        write_bytes(folder / "shop.db", bytes_of(folder / "first.db"));
        write_bytes(folder / "shop.db-wal", bytes_of(folder / "first.db-wal"));
        REQUIRE(bytes_of(folder / "shop.db-wal").size() > 32);
    }
    put_in_place(folder / "copy.db", folder / "shop.db", folder / "kept.db");
    CHECK(dump(folder / "kept.db") == replaced);
    Database restored = Database::open(folder / "shop.db");
    CHECK(dump(restored.sql()) == copied);
}

TEST_CASE("a shop that is being read or written is not replaced", "[copies]") {
    const ScratchFolder folder;
    SmallBook book(folder / "shop.db");
    copy_to(book.database, folder / "copy.db");
    book.database.sql().exec("INSERT INTO setting VALUES ('maker', 'Ada')");
    const std::string before = dump(book.database.sql());
    const auto files = folder.files();
    for (const char* begin : {"BEGIN IMMEDIATE", "BEGIN; SELECT * FROM setting"}) {
        INFO(begin);
        book.database.sql().exec(begin);
        CHECK_THROWS_WITH(put_in_place(folder / "copy.db", folder / "shop.db", folder / "kept.db"),
                          Contains("in use by another program"));
        book.database.sql().exec("COMMIT");
        CHECK(dump(book.database.sql()) == before);
    }
    CHECK(folder.files() == files);
}

TEST_CASE("a shop that others have open is replaced under them, and they see it", "[copies]") {
    const ScratchFolder folder;
    SmallBook book(folder / "shop.db");
    copy_to(book.database, folder / "copy.db");
    const std::string copied = dump(folder / "copy.db");
    book.database.sql().exec("INSERT INTO setting VALUES ('maker', 'Ada')");
    const std::string replaced = dump(book.database.sql());
    put_in_place(folder / "copy.db", folder / "shop.db", folder / "kept.db");
    CHECK(dump(book.database.sql()) == copied);
    CHECK(dump(folder / "kept.db") == replaced);
    CHECK(folder.files() == 3); // no side file, no scratch file
}

TEST_CASE("links and permissions stay with what is replaced and pass on to copies", "[copies]") {
    namespace fs = std::filesystem;
    const ScratchFolder folder;
    const auto mine = fs::perms::owner_read | fs::perms::owner_write;
    {
        SmallBook book(folder / "real.db");
        fs::permissions(folder / "real.db", mine);
        copy_to(book.database, folder / "copy.db");
    }
    CHECK(fs::status(folder / "copy.db").permissions() == mine);
    fs::permissions(folder / "copy.db", mine | fs::perms::others_read);
    fs::create_symlink("real.db", folder / "shop.db");
    put_in_place(folder / "copy.db", folder / "shop.db", folder / "kept.db");
    CHECK(fs::is_symlink(folder / "shop.db"));
    CHECK(fs::status(folder / "real.db").permissions() == mine);
    CHECK(fs::status(folder / "kept.db").permissions() == mine);
}

TEST_CASE("what is verified is what is put in place, the log beside the copy included",
          "[copies]") {
    const ScratchFolder folder;
    std::string latest;
    {
        SmallBook book(folder / "first.db");
        SQLite::Database& sql = book.database.sql();
        // A copy made by hand while an earlier program had its log beside the shop.
        REQUIRE(sql.execAndGet("PRAGMA journal_mode = WAL").getString() == "wal");
        sql.exec("INSERT INTO setting VALUES ('maker', 'Ada')");
        latest = dump(sql);
        write_bytes(folder / "copy.db", bytes_of(folder / "first.db"));
        write_bytes(folder / "copy.db-wal", bytes_of(folder / "first.db-wal"));
        REQUIRE(bytes_of(folder / "copy.db-wal").size() > 32);
        put_in_place(folder / "copy.db", folder / "shop.db", folder / "kept.db");
        CHECK(dump(folder / "shop.db") == latest);
        // What is wrong stands only in the log: it is found.
        sql.exec("UPDATE balance SET value = value + 1 WHERE quantity = 32000");
        write_bytes(folder / "copy.db-wal", bytes_of(folder / "first.db-wal"));
    }
    CHECK_THAT(against(folder / "copy.db").second, Contains("is not sound"));
}

TEST_CASE("a journal without its shop is not played back into another", "[copies]") {
    const ScratchFolder folder;
    {
        SmallBook book(folder / "copy-of.db");
        copy_to(book.database, folder / "copy.db");
    }
    write_bytes(folder / "shop.db-journal", "x");
    CHECK_THROWS_WITH(put_in_place(folder / "copy.db", folder / "shop.db", folder / "kept.db"),
                      Contains("is left of a shop that is gone"));
    CHECK_THROWS_WITH(Database::create(folder / "shop.db"),
                      Contains("is left of a shop that is gone"));
    CHECK_FALSE(std::filesystem::exists(folder / "shop.db"));
}

TEST_CASE("a shop too damaged to be read is moved aside as it is", "[copies]") {
    const ScratchFolder folder;
    {
        SmallBook book(folder / "copy-of.db");
        copy_to(book.database, folder / "copy.db");
    }
    write_bytes(folder / "shop.db", std::string(8192, 'x'));
    put_in_place(folder / "copy.db", folder / "shop.db", folder / "kept.db");
    CHECK(bytes_of(folder / "kept.db") == std::string(8192, 'x'));
    CHECK(dump(folder / "shop.db") == dump(folder / "copy.db"));
}
