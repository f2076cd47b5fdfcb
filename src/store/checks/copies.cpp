#include "store/checks/copies.hpp"

#include "base/error.hpp"
#include "store/checks/checks.hpp"

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/SQLiteCpp.h>
#include <fcntl.h>
#include <sqlite3.h>
#include <unistd.h>

#include <fmt/format.h>

#include <optional>
#include <system_error>

namespace barrow::store {
namespace {

namespace fs = std::filesystem;

/// A scratch name beside `path`, removed again (with SQLite's side files) at the end.
class Scratch {
public:
    explicit Scratch(const fs::path& beside, const char* suffix) : path_(beside) {
        path_ += fmt::format(".{}-{}", suffix, ::getpid());
        remove();
    }
    ~Scratch() { remove(); }
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;
    const fs::path& path() const { return path_; }

private:
    void remove() const {
        std::error_code ignored;
        for (const char* side : {"", "-wal", "-shm", "-journal"})
            fs::remove(path_.string() + side, ignored);
    }
    fs::path path_;
};

void copy_database(SQLite::Database& from, const fs::path& to) {
    SQLite::Database target(to.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    SQLite::Backup backup(target, from);
    backup.executeStep(-1);
}

/// The bytes are on the disk before the name is given to them.
void settle(const fs::path& path) {
    const int file = ::open(path.c_str(), O_RDONLY);
    if (file < 0) return;
    ::fsync(file);
    ::close(file);
}

} // namespace

void copy_to(Database& database, const fs::path& to) {
    const Scratch scratch(to, "part");
    // What cannot be written is the copy: a complaint about it names where it was to go.
    guarded(to, [&] {
        SQLite::Database place(scratch.path().string(),
                               SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
        place.exec("PRAGMA journal_mode = DELETE");
    });
    guarded(database.path(), [&] { copy_database(database.sql(), scratch.path()); });
    guarded(to, [&] {
        // A copy that stands alone: no write-ahead log beside it.
        SQLite::Database copy(scratch.path().string(), SQLite::OPEN_READWRITE);
        copy.exec("PRAGMA journal_mode = DELETE");
    });
    settle(scratch.path());
    std::error_code failed;
    fs::rename(scratch.path(), to, failed);
    if (failed)
        throw base::Error(base::Kind::machine,
                          fmt::format("{} cannot be written: {}", to.string(), failed.message()));
}

void verify_copy(const fs::path& path) {
    if (!fs::exists(path))
        throw base::Error(base::Kind::shop, fmt::format("there is no file {}", path.string()));
    const Scratch scratch(path, "verify");
    std::error_code failed;
    fs::copy_file(path, scratch.path(), failed);
    if (failed)
        throw base::Error(base::Kind::machine,
                          fmt::format("{} cannot be read: {}", path.string(), failed.message()));
    std::vector<std::string> faults;
    {
        Database copy = Database::open(scratch.path());
        guarded(path, [&] { faults = all_faults(copy); });
    }
    std::error_code ignored;
    const fs::path& before = scratch.path();
    for (int version = 1; version < 100; ++version)
        fs::remove(before.string() + fmt::format(".before-v{}", version), ignored);
    if (!faults.empty())
        throw base::Error(base::Kind::shop,
                          fmt::format("{} is not sound: {}", path.string(), faults.front()),
                          "nothing was replaced");
}

namespace {

/// Copies what is at `path` to `keep`, what still stands in its write-ahead log included. A file
/// too damaged for that is moved aside as it is, together with its log.
void set_aside(const fs::path& path, const fs::path& keep) {
    try {
        SQLite::Database old(path.string(), SQLite::OPEN_READWRITE);
        copy_database(old, keep);
        old.exec("PRAGMA wal_checkpoint(TRUNCATE)");
        old.exec("PRAGMA journal_mode = DELETE");
    } catch (const SQLite::Exception& error) {
        if (error.getErrorCode() == SQLITE_LOCKED || error.getErrorCode() == SQLITE_BUSY) throw;
        std::error_code ignored;
        for (const char* side : {"-wal", "-shm", "-journal"})
            fs::rename(path.string() + side, keep.string() + side, ignored);
        fs::rename(path, keep);
    }
}

} // namespace

void put_in_place(const fs::path& from, const fs::path& path, const fs::path& keep) {
    const Scratch scratch(path, "new");
    guarded(path, [&] {
        SQLite::Database source(from.string(), SQLite::OPEN_READONLY);
        copy_database(source, scratch.path());
        if (!keep.empty()) set_aside(path, keep);
    });
    settle(scratch.path());
    std::error_code failed;
    fs::rename(scratch.path(), path, failed);
    if (failed)
        throw base::Error(base::Kind::machine, fmt::format("{} cannot be replaced: {}",
                                                           path.string(), failed.message()));
}

} // namespace barrow::store
