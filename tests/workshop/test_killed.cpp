#include "store/checks/checks.hpp"
#include "workshop/making/batch.hpp"

#include "store/dump.hpp"
#include "workshop/use_cases.hpp"
#include "workshop/write_watch.hpp"

#include <catch2/catch.hpp>

#include <SQLiteCpp/SQLiteCpp.h>
#include <chrono>
#include <csignal>
#include <functional>
#include <memory>
#include <random>
#include <sqlite3.h>
#include <sys/wait.h>
#include <unistd.h>

using namespace barrow::test;
using barrow::store::Database;

namespace {

void make_batch(barrow::workshop::Context& context) {
    barrow::workshop::make(context, {{"leaflet", 3, {}}});
}

bool die() {
    std::raise(SIGKILL);
    return false;
}

/// A process of its own that does `action` and nothing after it; killed from here after
/// `microseconds` unless that is negative. Gives whether it came to its end by itself.
bool in_child(const std::function<void()>& action, long microseconds = -1) {
    const pid_t child = fork();
    if (child == 0) {
        try {
            action();
        } catch (...) {
            _exit(1);
        }
        _exit(0);
    }
    if (microseconds >= 0) {
        usleep(static_cast<useconds_t>(microseconds));
        kill(child, SIGKILL);
    }
    int status = 0;
    waitpid(child, &status, 0);
    return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

/// The shop before a batch and what it is like after it.
struct Scene {
    std::string bytes, before, after;
    std::size_t writes = 0;
};

Scene scene() {
    Scene scene;
    Shop shop;
    keep_busy(shop);
    scene.bytes = bytes_of(shop.path());
    Database database = shop.open();
    scene.before = dump(database.sql());
    {
        WriteWatch watch(database);
        watch.meet(0);
        auto context = context_of(database);
        make_batch(context);
        scene.writes = watch.writes().size();
    }
    scene.after = dump(database.sql());
    return scene;
}

/// What the file holds when it is next opened; it must be sound.
std::string found(Shop& shop) {
    Database database = shop.open();
    CHECK(barrow::store::all_faults(database).empty());
    return dump(database.sql());
}

/// Lets a child make a batch in a fresh copy of the scene's shop.
std::string after_killing(const Scene& scene, long microseconds,
                          const std::function<void(Database&, barrow::workshop::Context&)>& how) {
    Shop shop;
    write_bytes(shop.path(), scene.bytes);
    in_child(
        [&] {
            Database database = shop.open();
            auto context = context_of(database);
            how(database, context);
            make_batch(context);
        },
        microseconds);
    return found(shop);
}

} // namespace

TEST_CASE("killed at any of its writes, a batch has not happened", "[workshop][killed]") {
    const Scene start = scene();
    REQUIRE(start.writes > 100);
    for (std::size_t n = 1; n <= start.writes; n += 5) {
        INFO("killed at write " << n << " of " << start.writes);
        Shop shop;
        write_bytes(shop.path(), start.bytes);
        const bool ended = in_child([&] {
            Database database = shop.open();
            WriteWatch watch(database);
            watch.meet(static_cast<long>(n), die);
            auto context = context_of(database);
            make_batch(context);
        });
        CHECK_FALSE(ended);
        CHECK(found(shop) == start.before);
    }
}

TEST_CASE("killed just before its commit it has not happened, just after it has",
          "[workshop][killed]") {
    const Scene start = scene();
    const auto at_commit = [](Database& database, barrow::workshop::Context&) {
        sqlite3_commit_hook(
            database.sql().getHandle(), [](void*) { return static_cast<int>(die()); }, nullptr);
    };
    CHECK(after_killing(start, -1, at_commit) == start.before);
    // SQLite calls this one when a statement has come to its end.
    const auto once_written = [](Database& database, barrow::workshop::Context&) {
        const auto ended = [](unsigned, void*, void* statement, void*) {
            const std::string text = sqlite3_sql(static_cast<sqlite3_stmt*>(statement));
            return text.rfind("COMMIT", 0) == 0 ? static_cast<int>(die()) : 0;
        };
        sqlite3_trace_v2(database.sql().getHandle(), SQLITE_TRACE_PROFILE, ended, nullptr);
    };
    CHECK(after_killing(start, -1, once_written) == start.after);
}

TEST_CASE("killed at a moment nobody chose, all of it has happened or none", "[workshop][killed]") {
    const Scene start = scene();
    const auto nothing = [](Database&, barrow::workshop::Context&) {};
    // Let alone, it is done. How long that takes says when to strike; the answer does not hang on
    // it.
    const auto began = std::chrono::steady_clock::now();
    CHECK(after_killing(start, -1, nothing) == start.after);
    const auto took = std::chrono::duration_cast<std::chrono::microseconds>(
                          std::chrono::steady_clock::now() - began)
                          .count();
    std::mt19937 random(41);
    for (int round = 0; round < 40; ++round) {
        const long wait = static_cast<long>(random() % 1000) * took / 1000;
        INFO("killed after " << wait << " of " << took << " microseconds");
        const std::string holds = after_killing(start, wait, nothing);
        CHECK((holds == start.before || holds == start.after));
    }
}
