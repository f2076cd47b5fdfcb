#include "base/error.hpp"
#include "store/checks/checks.hpp"
#include "workshop/books/shop_file.hpp"
#include "workshop/making/batch.hpp"
#include "workshop/making/batch_report.hpp"
#include "workshop/shared/settings.hpp"

#include "store/dump.hpp"
#include "workshop/use_cases.hpp"
#include "workshop/write_watch.hpp"

#include <catch2/catch.hpp>

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

using namespace barrow::test;
using barrow::base::Error;
using barrow::store::Database;
using barrow::store::Mode;

namespace {

/// A busy shop for one use case, with what it needs done.
std::unique_ptr<Shop> shop_for(const UseCase& use_case) {
    static const std::string bytes = [] {
        Shop shop;
        keep_busy(shop);
        return bytes_of(shop.path());
    }();
    auto shop = std::make_unique<Shop>();
    write_bytes(shop->path(), bytes);
    if (!use_case.before.empty()) shop->done(use_case.before);
    return shop;
}

} // namespace

TEST_CASE("whichever write of a use case fails, nothing of it has happened",
          "[workshop][one-transaction]") {
    long denied = 0;
    for (const UseCase& use_case : writing_use_cases()) {
        INFO(use_case.name);
        const auto shop = shop_for(use_case);
        Database database = shop->open();
        WriteWatch watch(database);
        auto context = context_of(database);
        const std::string before = dump(database.sql());
        long n = 0;
        while (true) {
            INFO("write " << ++n);
            REQUIRE(n < 2000);
            watch.meet(n);
            bool done = true;
            try {
                use_case.run(context);
            } catch (const Error& error) {
                done = false;
                CHECK(std::string(error.what()).find("denied by the test") != std::string::npos);
            }
            if (done) break;
            ++denied;
            REQUIRE(dump(database.sql()) == before);
        }
        CHECK(watch.writes().size() == static_cast<std::size_t>(n - 1));
        CHECK(n > 1); // it wrote something
        CHECK(dump(database.sql()) != before);
        CHECK(barrow::store::all_faults(database).empty());
    }
    CHECK(denied > 500);
}

TEST_CASE("a commit that fails leaves nothing either", "[workshop][one-transaction]") {
    for (const UseCase& use_case : writing_use_cases()) {
        INFO(use_case.name);
        const auto shop = shop_for(use_case);
        Database database = shop->open();
        auto context = context_of(database);
        const std::string before = dump(database.sql());
        int commits = 0;
        const auto refuse = [](void* count) { return ++*static_cast<int*>(count); };
        sqlite3_commit_hook(database.sql().getHandle(), refuse, &commits);
        CHECK_THROWS_AS(use_case.run(context), Error);
        CHECK(commits == 1); // one transaction, and no other
        CHECK(dump(database.sql()) == before);
        sqlite3_commit_hook(database.sql().getHandle(), nullptr, nullptr);
        use_case.run(context);
        CHECK(dump(database.sql()) != before);
    }
}

TEST_CASE("a dry run writes what the real one writes, row for row, and keeps none of it",
          "[workshop][dry-run]") {
    for (const UseCase& use_case : writing_use_cases()) {
        INFO(use_case.name);
        const auto shop = shop_for(use_case);
        Database database = shop->open();
        WriteWatch watch(database);
        const std::string before = dump(database.sql());
        auto asked = context_of(database, Mode::dry_run);
        watch.meet(0);
        use_case.run(asked);
        const auto would = watch.writes();
        CHECK(dump(database.sql()) == before);
        auto meant = context_of(database);
        watch.meet(0);
        use_case.run(meant);
        CHECK(would == watch.writes());
    }
}

TEST_CASE("a shop is made whole or not at all, and never over something", "[workshop][init]") {
    const ScratchFolder folder;
    const auto init = [&](const std::vector<std::pair<std::string, std::string>>& settings) {
        barrow::workshop::init(folder / "a.db", settings, barrow::base::read_date("2027-03-06", ""),
                               "2027-03-06T09:30:00Z");
    };
    CHECK_THROWS_AS(init({{"currency", "POUND"}}), Error);
    CHECK(folder.files() == 0);
    init({{"currency", "JPY"}});
    const std::string bytes = bytes_of(folder / "a.db");
    CHECK_THROWS_AS(init({{"currency", "GBP"}}), Error);
    CHECK(bytes_of(folder / "a.db") == bytes);
}

TEST_CASE("a restore verifies first and keeps what it replaces", "[workshop][restore]") {
    Shop shop;
    keep_busy(shop);
    const auto copy = shop.folder() / "copy.db";
    const std::string then = dump(shop.path());
    shop.done({"backup", copy.string()});
    CHECK_THAT(shop.refused(1, {"backup", copy.string()}), Catch::Contains("exists"));
    shop.done("receive ENV --units 8 --cost 0.80");
    const std::string now = dump(shop.path());
    write_bytes(shop.folder() / "bad.db", bytes_of(copy).substr(0, 9000));
    shop.refused(4, {"restore", (shop.folder() / "bad.db").string()});
    shop.refused(4, {"restore", (shop.folder() / "none.db").string()});
    CHECK(dump(shop.path()) == now);
    shop.done({"restore", copy.string()});
    CHECK(dump(shop.path()) == then);
    long kept = 0;
    for (const auto& entry : std::filesystem::directory_iterator(shop.folder()))
        if (entry.path().string().find(".replaced-") != std::string::npos) {
            ++kept;
            CHECK(dump(entry.path()) == now);
        }
    CHECK(kept == 1);
    shop.sound();
}

TEST_CASE("what a report of cutting is understood by is read in the transaction of the cut",
          "[workshop][one-transaction]") {
    Shop shop;
    keep_busy(shop);
    Database database = shop.open();
    Database other = shop.open();
    other.sql().setBusyTimeout(0);
    auto context = context_of(database);
    bool asked = false;
    barrow::workshop::cut_batch_as_read(context, 2, [&] {
        asked = true;
        barrow::workshop::batch_report(database, 2); // reads in the same transaction
        CHECK(sqlite3_get_autocommit(database.sql().getHandle()) == 0);
        CHECK_THROWS_AS(other.sql().exec("BEGIN IMMEDIATE"), SQLite::Exception);
        return barrow::workshop::CutReport{};
    });
    CHECK(asked);
}

TEST_CASE("a shop that lacks a table is called damaged wherever its settings are read",
          "[workshop]") {
    Shop shop;
    Database database = shop.open();
    database.sql().exec("DROP TABLE setting");
    try {
        barrow::workshop::read_settings(database);
        FAIL("nothing was noticed");
    } catch (const Error& error) {
        CHECK(error.kind() == barrow::base::Kind::shop);
        CHECK_THAT(error.what(), Catch::Contains("is damaged"));
    }
}
