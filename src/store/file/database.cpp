#include "store/file/database.hpp"

#include "base/error.hpp"
#include "store/file/migrate.hpp"

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include <fmt/format.h>

#include <map>
#include <optional>
#include <utility>

namespace barrow::store {
namespace {

constexpr int busy_timeout_ms = 5'000;

// A connection stays with the thread that opened it: SQLite need not lock it at every column read.
const int one_thread = SQLite::OPEN_READWRITE | SQLite::OPEN_NOMUTEX;

base::Error translated(const SQLite::Exception& error, const std::filesystem::path& path) {
    const std::string file = path.string();
    switch (error.getErrorCode()) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return {base::Kind::shop, fmt::format("the shop {} is in use by another program", file),
                "try again when it is done"};
    case SQLITE_NOTADB:
        return {base::Kind::shop, fmt::format("{} is not a shop of this program", file),
                "name another file with --shop, or make a new shop with: barrow init"};
    case SQLITE_CORRUPT:
        return {base::Kind::shop, fmt::format("the shop {} is damaged ({})", file, error.what()),
                "go back to a copy made with: barrow backup"};
    case SQLITE_FULL:
    case SQLITE_IOERR:
    case SQLITE_CANTOPEN:
    case SQLITE_PERM:
    case SQLITE_READONLY:
    case SQLITE_NOMEM:
        return {base::Kind::machine,
                fmt::format("{} cannot be read or written ({})", file, error.what()),
                "look at free space and permissions"};
    default: return base::broken(error.what());
    }
}

} // namespace

void guarded(const std::filesystem::path& path, const std::function<void()>& action) {
    try {
        action();
    } catch (const SQLite::Exception& error) {
        throw translated(error, path);
    }
}

struct Database::Connection {
    SQLite::Database sql;
    std::map<std::string, SQLite::Statement> kept; ///< let go of before the connection is
};

Database::Database(std::filesystem::path path, int flags)
    : path_(std::move(path)),
      connection_(new Connection{SQLite::Database(path_.string(), flags, busy_timeout_ms), {}}) {}

Database::Database(Database&& other) noexcept = default;
Database& Database::operator=(Database&& other) noexcept = default;
Database::~Database() = default;

SQLite::Database& Database::sql() {
    return connection_->sql;
}

SQLite::Statement& Database::kept(const std::string& text) {
    return connection_->kept.try_emplace(text, connection_->sql, text).first->second;
}

void Database::harden() {
    SQLite::Database& sql = connection_->sql;
    sqlite3* handle = sql.getHandle();
    sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_DQS_DML, 0, nullptr);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_DQS_DDL, 0, nullptr);
    sql.exec("PRAGMA trusted_schema = OFF");
    sql.exec("PRAGMA cell_size_check = ON");
    sql.exec("PRAGMA foreign_keys = ON");
    if (sql.execAndGet("PRAGMA foreign_keys").getInt() != 1)
        throw base::broken("this SQLite was built without foreign keys");
    // 16 MB: a history reads pages from all over the file, the same ones again and again.
    sql.exec("PRAGMA cache_size = -16000");
    // In-memory shops of the tests answer "memory": they have no log to write ahead.
    sql.exec("PRAGMA journal_mode = WAL");
    sql.exec("PRAGMA synchronous = FULL");
}

Database Database::create(const std::filesystem::path& path) {
    if (path != ":memory:" && std::filesystem::exists(path))
        throw base::refused(fmt::format("{} exists already", path.string()),
                            "a shop is never overwritten: name another file with --shop");
    std::optional<Database> made;
    try {
        guarded(path, [&] {
            made = Database(path, one_thread | SQLite::OPEN_CREATE);
            made->harden();
            make_fresh(made->sql());
        });
    } catch (...) {
        // Half a shop would be refused by open() and in the way of the next create().
        if (made && path != ":memory:") {
            made.reset();
            std::error_code ignored;
            std::filesystem::remove(path, ignored);
        }
        throw;
    }
    return std::move(*made);
}

Database Database::open(const std::filesystem::path& path) {
    std::error_code failed;
    if (!std::filesystem::exists(path, failed))
        throw base::Error(base::Kind::shop, fmt::format("there is no shop {}", path.string()),
                          "make one with: barrow init");
    std::optional<Database> opened;
    guarded(path, [&] {
        opened = Database(path, one_thread);
        refuse_foreign(opened->sql(), path);
        opened->harden();
        bring_up_to_date(opened->sql(), path);
    });
    return std::move(*opened);
}

} // namespace barrow::store
