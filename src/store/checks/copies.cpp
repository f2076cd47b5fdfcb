#include "store/checks/copies.hpp"

#include "base/error.hpp"
#include "store/checks/checks.hpp"
#include "store/file/copying.hpp"
#include "store/file/scratch.hpp"

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>
#include <sys/stat.h>

#include <fmt/format.h>

#include <array>
#include <cerrno>
#include <optional>
#include <string>
#include <system_error>
#include <vector>

namespace barrow::store {
namespace {

namespace fs = std::filesystem;

constexpr std::array<const char*, 3> sides = {"-journal", "-wal", "-shm"};

int kind_of(const SQLite::Exception& error) {
    return error.getErrorCode() & 0xff;
}

/// False when there is nothing of that name. Throws when that cannot be found out.
bool is_there(const fs::path& path) {
    struct stat status {};
    if (::stat(path.c_str(), &status) == 0) return true;
    if (errno == ENOENT || errno == ENOTDIR) return false;
    throw base::Error(
        base::Kind::machine,
        fmt::format("{} cannot be read: {}", path.string(), std::generic_category().message(errno)),
        "look at the name and permissions");
}

/// Copies a file and its side files byte by byte, and lets SQLite take in what stands in those.
void copy_bytes(const fs::path& from, const Scratch& to) {
    const auto copy = [&](const std::string& side) {
        std::error_code failed;
        fs::copy_file(from.string() + side, to.path().string() + side,
                      fs::copy_options::overwrite_existing, failed);
        if (failed)
            throw base::Error(
                base::Kind::machine,
                fmt::format("{} cannot be copied: {}", from.string() + side, failed.message()));
    };
    copy("");
    for (const char* side : {"-journal", "-wal"})
        if (is_there(from.string() + side)) copy(side);
    SQLite::Database sql(to.path().string(), SQLite::OPEN_READWRITE);
    sql.exec("PRAGMA journal_mode = DELETE");
}

/// Copies the shop `from` into the scratch file. Where SQLite may make no side file beside `from`
/// and would need one, the bytes are copied.
void take_copy(const fs::path& from, const Scratch& to) {
    guarded(from, [&] {
        try {
            SQLite::Database source(from.string(), SQLite::OPEN_READONLY, busy_timeout_ms);
            copy_all(source, to, to.path());
        } catch (const SQLite::Exception& error) {
            if (kind_of(error) != SQLITE_CANTOPEN && kind_of(error) != SQLITE_READONLY) throw;
            copy_bytes(from, to);
        }
    });
}

void refuse_unsound(const Scratch& copy, const fs::path& from) {
    std::vector<std::string> faults;
    Database shop = Database::open_scratch(copy.path(), from);
    guarded(from, [&] { faults = all_faults(shop); });
    if (!faults.empty())
        throw base::Error(base::Kind::shop,
                          fmt::format("{} is not sound: {}", from.string(), faults.front()),
                          "nothing was replaced");
}

/// An open shop that nobody else can read or write as long as this lives.
class LockedShop {
public:
    explicit LockedShop(const fs::path& path) : sql_(path.string(), SQLite::OPEN_READWRITE) {
        // SQLite's own waiting sleeps longer and longer, and misses its turn where others book
        // one thing after another.
        sqlite3_busy_handler(
            sql_.getHandle(),
            [](void*, int tries) {
                sqlite3_sleep(1);
                return static_cast<int>(tries < busy_timeout_ms);
            },
            nullptr);
        sql_.exec("PRAGMA synchronous = EXTRA");
        // Takes in and ends a write-ahead log of an earlier program.
        sql_.exec("PRAGMA journal_mode = DELETE");
        // In the exclusive locking mode the lock outlasts the transaction. The mode comes after the
        // lock: in it a reader's lock would be held while waiting for a writer, who waits for it.
        sql_.exec("BEGIN EXCLUSIVE");
        sql_.exec("PRAGMA locking_mode = EXCLUSIVE");
        sql_.exec("COMMIT");
    }
    ~LockedShop() {
        // In this locking mode the journal is emptied, not deleted. Leaving the mode and changing
        // the kind of journal deletes it.
        for (const char* pragma :
             {"locking_mode = NORMAL", "journal_mode = PERSIST", "journal_mode = DELETE"})
            sql_.tryExec(std::string("PRAGMA ") + pragma);
    }
    LockedShop(const LockedShop&) = delete;
    LockedShop& operator=(const LockedShop&) = delete;

    SQLite::Database& sql() { return sql_; }

private:
    SQLite::Database sql_;
};

/// Keeps and replaces the content of a shop that SQLite can read. False when it cannot.
bool replaced_content(const Scratch& fresh, const fs::path& path, const fs::path& keep) {
    std::optional<LockedShop> shop;
    Scratch kept(keep, path);
    try {
        shop.emplace(path);
        copy_all(shop->sql(), kept, keep);
    } catch (const SQLite::Exception& error) {
        if (kind_of(error) != SQLITE_NOTADB && kind_of(error) != SQLITE_CORRUPT) throw;
        return false;
    }
    kept.publish(keep);
    SQLite::Database source(fresh.path().string(), SQLite::OPEN_READONLY);
    replace_all(source, shop->sql());
    return true;
}

void move_aside(const fs::path& path, const fs::path& keep) {
    for (const char* side : sides)
        if (is_there(path.string() + side))
            rename_without_replacing(path.string() + side, keep.string() + side);
    rename_without_replacing(path, keep);
}

} // namespace

void copy_to(Database& database, const fs::path& to) {
    Scratch scratch(to, database.path());
    guarded(database.path(), [&] { copy_all(database.sql(), scratch, to); });
    scratch.publish(to);
}

bool put_in_place(const fs::path& from, const fs::path& path, const fs::path& keep) {
    if (!is_there(from))
        throw base::Error(base::Kind::shop, fmt::format("there is no file {}", from.string()));
    const bool replaces = is_there(path);
    Scratch fresh(path, replaces ? path : from);
    take_copy(from, fresh);
    refuse_unsound(fresh, from);
    if (replaces) {
        bool replaced = false;
        guarded(path, [&] { replaced = replaced_content(fresh, path, keep); });
        if (replaced) return true;
        move_aside(path, keep);
    } else {
        refuse_stray_journals(path);
    }
    fresh.publish(path);
    return replaces;
}

} // namespace barrow::store
