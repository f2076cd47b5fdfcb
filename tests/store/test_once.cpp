#include "base/error.hpp"
#include "store/ledger/transaction.hpp"

#include "store/scratch_folder.hpp"

#include <catch2/catch.hpp>

#include <atomic>
#include <thread>

using namespace barrow::store;
using namespace barrow::test;

namespace {

const std::string one_key = "0123456789abcdef";

/// Writes under a key; whether it was taken.
bool written_once(
    Database& shop, const std::string& key, Mode mode = Mode::commit,
    const std::function<void()>& action = [] {}) {
    const Once once(shop, key);
    try {
        write(shop, mode, action);
        return true;
    } catch (const barrow::base::Error& error) {
        CHECK(error.kind() == barrow::base::Kind::refused);
        return false;
    }
}

} // namespace

TEST_CASE("what is written under a key is written once", "[once]") {
    const ScratchFolder folder;
    Database shop = Database::create(folder / "shop.db");
    int ran = 0;
    CHECK_FALSE(was_written(shop, one_key));
    CHECK(written_once(shop, one_key, Mode::commit, [&] { ++ran; }));
    CHECK(was_written(shop, one_key));
    CHECK_FALSE(written_once(shop, one_key, Mode::commit, [&] { ++ran; }));
    CHECK(ran == 1);
    CHECK(written_once(shop, "another key of 16+"));
    write(shop, Mode::commit, [&] { ++ran; }); // without a key nothing is remembered
    write(shop, Mode::commit, [&] { ++ran; });
    CHECK(ran == 3);
}

TEST_CASE("a key is kept only with what was kept under it", "[once]") {
    const ScratchFolder folder;
    Database shop = Database::create(folder / "shop.db");
    CHECK(written_once(shop, one_key, Mode::dry_run));
    CHECK_FALSE(was_written(shop, one_key));
    CHECK_FALSE(written_once(shop, one_key, Mode::commit,
                             [] { throw barrow::base::refused("not enough"); }));
    CHECK_FALSE(was_written(shop, one_key));
    CHECK(written_once(shop, one_key));
}

TEST_CASE("of several that write under one key at once, one does", "[once]") {
    const ScratchFolder folder;
    { Database::create(folder / "shop.db"); }
    std::atomic<int> ran{0};
    std::vector<std::thread> all;
    for (int i = 0; i < 8; ++i)
        all.emplace_back([&] {
            Database shop = Database::open(folder / "shop.db");
            const Once once(shop, one_key);
            try {
                write(shop, Mode::commit, [&] { ++ran; });
            } catch (const barrow::base::Error&) { // refused, since another was first
            }
        });
    for (std::thread& one : all) one.join();
    CHECK(ran == 1);
}
