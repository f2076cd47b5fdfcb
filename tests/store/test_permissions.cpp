#include "base/error.hpp"
#include "store/checks/checks.hpp"
#include "store/checks/copies.hpp"
#include "store/file/scratch.hpp"
#include "store/ledger/transaction.hpp"

#include "store/dump.hpp"
#include "store/faults.hpp"
#include "store/scratch_folder.hpp"
#include "store/small_book.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

#include <catch2/catch.hpp>

#include <array>
#include <csignal>
#include <fcntl.h>
#include <linux/capability.h>
#include <sys/file.h>
#include <sys/syscall.h>
#include <unistd.h>

using namespace barrow::store;
using namespace barrow::test;
using barrow::base::Error;
using barrow::base::Kind;
using Catch::Contains;
namespace fs = std::filesystem;

namespace {

/// Permissions hold for the superuser too while it lives; for anyone else they hold anyway. The
/// user stays the same, since another one might not reach the scratch folder. Source:
/// capabilities(7), "DAC overrides"; the version is that of Linux 2.6.26 and later.
class BoundByPermissions {
public:
    BoundByPermissions() : changed_(geteuid() == 0) {
        if (!changed_) return;
        call(SYS_capget, before_);
        Sets bound = before_;
        bound[0].effective &=
            ~(1U << CAP_DAC_OVERRIDE | 1U << CAP_DAC_READ_SEARCH | 1U << CAP_FOWNER);
        call(SYS_capset, bound);
    }
    ~BoundByPermissions() {
        if (changed_) call(SYS_capset, before_);
    }
    BoundByPermissions(const BoundByPermissions&) = delete;
    BoundByPermissions& operator=(const BoundByPermissions&) = delete;

private:
    using Sets = std::array<__user_cap_data_struct, 2>;

    static void call(long number, Sets& sets) {
        __user_cap_header_struct header{_LINUX_CAPABILITY_VERSION_3, 0};
        if (syscall(number, &header, sets.data()) != 0) std::abort();
    }

    bool changed_;
    Sets before_{};
};

/// Takes permissions from a file or folder while it lives.
class Denied {
public:
    Denied(const fs::path& path, fs::perms left) : path_(path) { fs::permissions(path, left); }
    ~Denied() { fs::permissions(path_, fs::perms::owner_all); }
    Denied(const Denied&) = delete;
    Denied& operator=(const Denied&) = delete;

private:
    fs::path path_;
};

constexpr fs::perms look = fs::perms::owner_read | fs::perms::owner_exec | fs::perms::others_read
                           | fs::perms::others_exec | fs::perms::group_read | fs::perms::group_exec;

template <typename Action>
std::pair<int, std::string> how_it_ends(Action action) {
    try {
        action();
        return {0, ""};
    } catch (const Error& error) {
        return {static_cast<int>(error.kind()), error.what()};
    }
}

constexpr int machine = static_cast<int>(Kind::machine);

} // namespace

TEST_CASE("a shop in a folder that cannot be written can be looked at", "[permissions]") {
    const ScratchFolder folder;
    const bool logged = GENERATE(false, true); // a shop of today, one of an earlier program
    fs::create_directory(folder / "there");
    const auto path = folder / "there/shop.db";
    std::string before;
    {
        SmallBook book(path);
        if (logged) book.database.sql().exec("PRAGMA journal_mode = WAL");
        before = dump(book.database.sql());
    }
    fs::permissions(folder.path(), look);
    const Denied denied(folder / "there", look);
    const BoundByPermissions bound;
    Database shop = Database::open(path);
    CHECK(shop.read_only());
    CHECK(dump(shop.sql()) == before);
    CHECK(all_faults(shop).empty());
    const auto ended = how_it_ends([&] { write(shop, Mode::commit, [] {}); });
    CHECK(ended.first == machine);
    CHECK_THAT(ended.second, Contains("can only be looked at"));
}

TEST_CASE("a shop that may be written is not read-only", "[permissions]") {
    const ScratchFolder folder;
    CHECK_FALSE(Database::create(folder / "shop.db").read_only());
}

TEST_CASE("a shop that cannot be reached is not called missing", "[permissions]") {
    const ScratchFolder folder;
    fs::create_directory(folder / "there");
    { SmallBook book(folder / "there/shop.db"); }
    fs::permissions(folder.path(), look);
    const Denied denied(folder / "there", fs::perms::none);
    const BoundByPermissions bound;
    REQUIRE(access(folder.path().c_str(), R_OK | X_OK) == 0);
    const auto opened = how_it_ends([&] { Database::open(folder / "there/shop.db"); });
    CHECK(opened.first == machine);
    CHECK_THAT(opened.second, Contains("Permission denied"));
    const auto made = how_it_ends([&] { Database::create(folder / "there/other.db"); });
    CHECK(made.first == machine);
    CHECK_THAT(made.second, Contains("Permission denied"));
}

TEST_CASE("a copy in a folder that cannot be written can be restored", "[permissions]") {
    const ScratchFolder folder;
    const bool logged = GENERATE(false, true);
    fs::create_directory(folder / "stick");
    fs::create_directory(folder / "home");
    std::string copied;
    {
        SmallBook book(folder / "stick/copy.db");
        if (logged) book.database.sql().exec("PRAGMA journal_mode = WAL");
        copied = dump(book.database.sql());
    }
    fs::permissions(folder.path(), look);
    fs::permissions(folder / "home", fs::perms::all);
    const Denied denied(folder / "stick", look);
    const BoundByPermissions bound;
    put_in_place(folder / "stick/copy.db", folder / "home/shop.db", folder / "home/kept.db");
    CHECK(dump(folder / "home/shop.db") == copied);
}

TEST_CASE("where no copy can be written the cause is named", "[permissions]") {
    const ScratchFolder folder;
    SmallBook book(folder / "shop.db");
    fs::create_directory(folder / "there");
    fs::permissions(folder.path(), look);
    const Denied denied(folder / "there", look);
    const BoundByPermissions bound;
    const auto ended = how_it_ends([&] { copy_to(book.database, folder / "there/copy.db"); });
    CHECK(ended.first == machine);
    CHECK_THAT(ended.second, Contains("there/copy.db") && Contains("Permission denied"));
}

TEST_CASE("what a killed program left is cleared by the next, what is being written is not",
          "[permissions]") {
    const ScratchFolder folder;
    SmallBook book(folder / "shop.db");
    CHECK(in_child([&] {
              const Scratch scratch(folder / "copy.db");
              raise(SIGKILL);
          })
          == SIGKILL);
    CHECK(folder.files() == 2);
    write_bytes(folder / ".barrow-scratch-01234567-journal", "x");
    const Scratch mine(folder / "other.db");
    { Database::open(folder / "shop.db"); }
    CHECK(fs::exists(mine.path()));
    CHECK(folder.files() == 2);
}
