#include "store/file/copying.hpp"

#include "base/error.hpp"
#include "store/file/database.hpp"
#include "store/file/migrate.hpp"

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <optional>
#include <system_error>

namespace barrow::store {
namespace {

namespace fs = std::filesystem;

/// Throws unless the copy has that version and SQLite finds nothing wrong in it.
void refuse_unsound(const fs::path& copy, const fs::path& shop, int version) {
    SQLite::Database sql(copy.string(), SQLite::OPEN_READONLY);
    const std::string found = sql.execAndGet("PRAGMA integrity_check").getString();
    if (found != "ok")
        throw base::Error(base::Kind::shop,
                          fmt::format("the shop {} is damaged ({})", shop.string(), found),
                          "go back to a copy made with: barrow backup");
    if (version_of(sql) != version)
        throw base::broken("the copy has another version than its shop");
}

bool same_bytes(const fs::path& one, const fs::path& other) {
    std::error_code failed;
    if (fs::file_size(one, failed) != fs::file_size(other, failed) || failed) return false;
    std::ifstream first(one, std::ios::binary);
    std::ifstream second(other, std::ios::binary);
    using Bytes = std::istreambuf_iterator<char>;
    return first && second && std::equal(Bytes(first), Bytes(), Bytes(second), Bytes());
}

} // namespace

void replace_all(SQLite::Database& from, SQLite::Database& to) {
    SQLite::Backup backup(to, from);
    // Busy is an answer of this call, not an exception: unheeded, nothing would have been copied.
    if (const int answer = backup.executeStep(-1); answer != SQLITE_DONE)
        throw SQLite::Exception(sqlite3_errstr(answer), answer);
}

void copy_all(SQLite::Database& from, const Scratch& to, const fs::path& shown) {
    std::optional<SQLite::Database> target;
    guarded(shown, [&] {
        target.emplace(to.path().string(), SQLite::OPEN_READWRITE);
        // It is synced as a whole and named afterwards. A journal could only harm: one that cannot
        // be removed would roll the copy back to nothing.
        target->exec("PRAGMA journal_mode = OFF");
        target->exec("PRAGMA synchronous = OFF");
    });
    try {
        replace_all(from, *target);
    } catch (const SQLite::Exception& error) {
        const int code = error.getErrorCode() & 0xff;
        if (code != SQLITE_FULL && code != SQLITE_IOERR) throw;
        guarded(shown, [&] { throw error; });
    }
    target.reset();
    to.stand_alone();
}

void keep_older_version(const fs::path& path, int version) {
    Scratch scratch(path, path);
    guarded(path, [&] {
        // Another connection than the one that has begun to write: SQLite copies from none that
        // has.
        SQLite::Database source(path.string(), SQLite::OPEN_READWRITE, busy_timeout_ms);
        copy_all(source, scratch, path);
        refuse_unsound(scratch.path(), path, version);
    });
    for (int number = 1;; ++number) {
        fs::path name = path;
        name += fmt::format(".version-{}", version);
        if (number > 1) name += fmt::format("-{}", number);
        std::error_code failed;
        if (fs::symlink_status(name, failed).type() == fs::file_type::not_found)
            return scratch.publish(name);
        if (failed)
            throw base::Error(base::Kind::machine, fmt::format("{} cannot be looked at: {}",
                                                               name.string(), failed.message()));
        if (same_bytes(name, scratch.path())) return; // of an attempt that was cut short
    }
}

} // namespace barrow::store
