#include "base/error.hpp"
#include "store/checks/checks.hpp"
#include "store/checks/copies.hpp"
#include "store/file/migrate.hpp"
#include "store/file/scratch.hpp"
#include "store/file/settings.hpp"
#include "store/ledger/transaction.hpp"

#include "store/dump.hpp"
#include "store/faults.hpp"
#include "store/scratch_folder.hpp"
#include "store/small_book.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

#include <catch2/catch.hpp>

#include <csignal>
#include <cstdlib>
#include <iostream>

using namespace barrow::store;
using namespace barrow::test;
using barrow::base::Error;
using barrow::base::Kind;
namespace fs = std::filesystem;

namespace {

/// An operation on files, what stands before it, and what must hold after it went wrong.
struct Scene {
    const char* name;
    std::function<void(const ScratchFolder&)> prepare;
    std::function<void(const ScratchFolder&)> act;
    /// `done`: the operation was reported as done.
    std::function<void(const ScratchFolder&, bool done)> judge;
};

/// What a shop holds; it must open and be sound.
std::string sound(const fs::path& path) {
    Database shop = Database::open(path);
    CHECK(all_faults(shop).empty());
    return dump(shop.sql());
}

/// Content of the shops of the scenes, as text: the copy, and the shop it replaces.
struct Content {
    std::string copy, shop;
};

const Content& content() {
    static const Content known = [] {
        Content made;
        SmallBook book;
        made.copy = dump(book.database.sql());
        book.database.sql().exec("INSERT INTO setting VALUES ('maker', 'Ada')");
        made.shop = dump(book.database.sql());
        return made;
    }();
    return known;
}

void make_shop_and_copy(const ScratchFolder& folder) {
    SmallBook book(folder / "shop.db");
    copy_to(book.database, folder / "copy.db");
    book.database.sql().exec("INSERT INTO setting VALUES ('maker', 'Ada')");
}

void make_old(const ScratchFolder& folder) {
    SQLite::Database sql((folder / "shop.db").string(),
                         SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    migrate(sql, 5);
    sql.exec("INSERT INTO setting VALUES ('maker', 'Ada')");
}

const std::vector<Scene>& scenes() {
    static const std::vector<Scene> all = {
        {"backup", make_shop_and_copy,
         [](const ScratchFolder& folder) {
             Database shop = Database::open(folder / "shop.db");
             copy_to(shop, folder / "second.db");
         },
         [](const ScratchFolder& folder, bool done) {
             CHECK(sound(folder / "shop.db") == content().shop);
             if (done) CHECK(fs::exists(folder / "second.db"));
             if (fs::exists(folder / "second.db"))
                 CHECK(sound(folder / "second.db") == content().shop);
         }},
        {"restore", make_shop_and_copy,
         [](const ScratchFolder& folder) {
             put_in_place(folder / "copy.db", folder / "shop.db", folder / "kept.db");
         },
         [](const ScratchFolder& folder, bool done) {
             const std::string now = sound(folder / "shop.db");
             CHECK((now == content().copy || now == content().shop));
             if (done) CHECK(now == content().copy);
             if (now == content().copy || fs::exists(folder / "kept.db"))
                 CHECK(sound(folder / "kept.db") == content().shop);
             CHECK(sound(folder / "copy.db") == content().copy);
         }},
        {"restore where there was nothing",
         [](const ScratchFolder& folder) {
             make_shop_and_copy(folder);
             fs::remove(folder / "shop.db");
         },
         [](const ScratchFolder& folder) {
             put_in_place(folder / "copy.db", folder / "shop.db", folder / "kept.db");
         },
         [](const ScratchFolder& folder, bool done) {
             CHECK(fs::exists(folder / "shop.db") >= done);
             if (fs::exists(folder / "shop.db")) CHECK(sound(folder / "shop.db") == content().copy);
         }},
        {"migration", make_old,
         [](const ScratchFolder& folder) { Database::open(folder / "shop.db"); },
         [](const ScratchFolder& folder, bool) {
             CHECK_THAT(sound(folder / "shop.db"), Catch::Contains("setting: 'maker','Ada'"));
             REQUIRE(fs::exists(folder / "shop.db.version-5"));
             SQLite::Database kept((folder / "shop.db.version-5").string(), SQLite::OPEN_READONLY);
             CHECK(version_of(kept) == 5);
             CHECK_THAT(dump(kept), Catch::Contains("setting: 'maker','Ada'"));
             CHECK_FALSE(fs::exists(folder / "shop.db.version-5-2"));
         }},
        {"init", [](const ScratchFolder&) {},
         [](const ScratchFolder& folder) {
             Database::create(folder / "shop.db",
                              [](Database& made) { put_setting(made, "currency", "EUR"); });
         },
         [](const ScratchFolder& folder, bool done) {
             CHECK(fs::exists(folder / "shop.db") >= done);
             if (!fs::exists(folder / "shop.db"))
                 Database::create(folder / "shop.db", [](Database& made) {
                     put_setting(made, "currency", "EUR");
                 }); // nothing is in its way
             CHECK_THAT(sound(folder / "shop.db"), Catch::Contains("setting: 'currency','EUR'"));
         }},
        {"booking", make_shop_and_copy,
         [](const ScratchFolder& folder) {
             Database shop = Database::open(folder / "shop.db");
             write(shop, Mode::commit, [&] { put_setting(shop, "currency", "EUR"); });
         },
         [](const ScratchFolder& folder, bool done) {
             const bool booked =
                 sound(folder / "shop.db").find("'currency','EUR'") != std::string::npos;
             CHECK(booked >= done);
         }},
    };
    return all;
}

/// After the next command nothing is left in the folder but whole files.
void nothing_is_left(const ScratchFolder& folder) {
    if (fs::exists(folder / "shop.db")) {
        Database shop = Database::open(folder / "shop.db");
        write(shop, Mode::commit, [&] { put_setting(shop, "margin", "50"); });
    } else {
        clear_scratch(folder.path()); // as any command that makes a file here does first
    }
    for (const auto& entry : fs::directory_iterator(folder.path())) {
        const std::string name = entry.path().filename().string();
        if (name.rfind(".barrow-scratch-", 0) == 0 || name.find("-journal") != std::string::npos)
            FAIL_CHECK(name << " is left");
    }
}

/// How many operations the scene takes when all goes well.
long operations(const Scene& scene) {
    const ScratchFolder folder;
    scene.prepare(folder);
    const InjectedFaults counting(Fault::none, 0);
    scene.act(folder);
    return InjectedFaults::count();
}

void go_wrong(const Scene& scene, Fault fault, long at) {
    const ScratchFolder folder;
    scene.prepare(folder);
    bool done = false;
    if (fault == Fault::die || fault == Fault::die_mid) {
        done = in_child([&] {
                   const InjectedFaults faults(fault, at);
                   scene.act(folder);
               })
               == 0;
    } else {
        try {
            const InjectedFaults faults(fault, at);
            scene.act(folder);
            done = true;
        } catch (const Error& error) {
            INFO(error.what());
            CHECK(error.kind() == Kind::machine);
        }
    }
    scene.judge(folder, done);
    nothing_is_left(folder);
}

} // namespace

TEST_CASE(
    "whichever operation on a file goes wrong, the shop is sound and what was reported is in it",
    "[faults]") {
    // Every operation with BARROW_FAULTS=all; one in some else.
    const char* wanted = std::getenv("BARROW_FAULTS");
    const long step = wanted == nullptr ? 17 : 1;
    const std::vector<std::pair<Fault, const char*>> faults = {
        {Fault::fail, "fails"},
        {Fault::fail_on, "fails, and all after it"},
        {Fault::shorten, "is half done"},
        {Fault::die, "is the last"},
        {Fault::die_mid, "is half done and the last"}};
    content();
    for (const Scene& scene : scenes()) {
        const long count = operations(scene);
        REQUIRE(count > 4);
        long tried = 0;
        long first = 0;
        for (const auto& [fault, words] : faults)
            for (long at = 1 + first++ % step; at <= count; at += step, ++tried) {
                INFO(scene.name << ": operation " << at << " of " << count << " " << words);
                go_wrong(scene, fault, at);
            }
        if (wanted != nullptr)
            std::cout << scene.name << ": " << count << " operations, " << tried << " faults\n";
    }
}

TEST_CASE("a disk that does not confirm is reported, and nothing stands under the name",
          "[faults]") {
    const ScratchFolder folder;
    make_shop_and_copy(folder);
    Database shop = Database::open(folder / "shop.db");
    long count = 0;
    {
        const InjectedFaults counting(Fault::none, 0);
        copy_to(shop, folder / "counted.db");
        count = InjectedFaults::count();
    }
    // The last three operations: the file on the disk, its name, the folder on the disk.
    for (long at = count - 2; at <= count; ++at) {
        INFO("operation " << at << " of " << count);
        {
            const InjectedFaults faults(Fault::fail, at);
            CHECK_THROWS_WITH(copy_to(shop, folder / "second.db"),
                              Catch::Contains("cannot be written: Input/output error"));
        }
        CHECK_FALSE(fs::exists(folder / "second.db"));
    }
}
