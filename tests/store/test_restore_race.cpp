#include "base/error.hpp"
#include "store/checks/checks.hpp"
#include "store/checks/copies.hpp"
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
#include <fcntl.h>
#include <iostream>
#include <set>
#include <sys/wait.h>
#include <unistd.h>

using namespace barrow::store;
using namespace barrow::test;

namespace {

/// Books one thing after another, and writes the name of each to `done` once its commit was
/// reported. Ends when it is killed.
[[noreturn]] void keep_booking(const std::filesystem::path& path, const std::string& who,
                               int done) {
    for (int number = 0;; ++number) {
        const std::string name = who + std::to_string(number);
        try {
            Database shop = Database::open(path);
            write(shop, Mode::commit, [&] { put_setting(shop, name, "booked"); });
        } catch (const barrow::base::Error& error) {
            if (error.kind() == barrow::base::Kind::shop) continue; // in use for too long
            std::cerr << error.what() << std::endl;
            _exit(1);
        }
        const std::string line = name + "\n";
        if (::write(done, line.data(), line.size()) < 0) _exit(1);
        ::usleep(200); // nobody books without any pause
    }
}

std::set<std::string> bookings_in(const std::filesystem::path& path) {
    SQLite::Database sql(path.string(), SQLite::OPEN_READWRITE);
    const auto names = column(sql, "SELECT name FROM setting WHERE value = 'booked'");
    return {names.begin(), names.end()};
}

/// One restore while two programs book, each killed at some moment after it. Every booking reported
/// is in the restored shop or in what was kept of the one before. How many there were.
std::size_t race(int round) {
    const ScratchFolder folder;
    const auto path = folder / "shop.db";
    {
        SmallBook book(path);
        copy_to(book.database, folder / "copy.db");
    }
    std::vector<pid_t> children;
    std::vector<std::filesystem::path> lists;
    for (const char* who : {"a", "b"}) {
        lists.push_back(folder / (std::string("done-") + who));
        const int done = ::open(lists.back().c_str(), O_WRONLY | O_CREAT | O_APPEND, 0600);
        const pid_t child = fork();
        if (child == 0) keep_booking(path, who, done);
        children.push_back(child);
        ::close(done);
    }
    ::usleep(static_cast<useconds_t>(1000 + round * 37 % 5000));
    for (bool replaced = false; !replaced;) {
        try {
            replaced = put_in_place(folder / "copy.db", path, folder / "kept.db");
        } catch (const barrow::base::Error& error) {
            if (error.kind() != barrow::base::Kind::shop) throw;
        }
    }
    ::usleep(static_cast<useconds_t>(round * 53 % 3000));
    for (const pid_t child : children) {
        kill(child, SIGKILL);
        int status = 0;
        waitpid(child, &status, 0);
        CHECK(WIFSIGNALED(status)); // it did not end by itself, which it does on other errors
    }
    std::set<std::string> found = bookings_in(path);
    found.merge(bookings_in(folder / "kept.db"));
    std::size_t reported = 0;
    for (const auto& list : lists) {
        std::ifstream lines(list);
        for (std::string line; std::getline(lines, line); ++reported)
            if (found.count(line) == 0) FAIL_CHECK("the booking " << line << " is lost");
    }
    Database shop = Database::open(path);
    CHECK(all_faults(shop).empty());
    return reported;
}

} // namespace

TEST_CASE("no booking is lost when a shop is restored under two programs that book",
          "[copies][race]") {
    const char* wanted = std::getenv("BARROW_RACE_ROUNDS");
    const int rounds = wanted == nullptr ? 5 : std::atoi(wanted);
    std::size_t reported = 0;
    for (int round = 0; round < rounds; ++round) {
        INFO("round " << round);
        reported += race(round);
    }
    CHECK(reported > 0);
    if (wanted != nullptr)
        std::cout << rounds << " restores, " << reported << " bookings reported\n";
}
