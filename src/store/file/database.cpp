#include "store/file/database.hpp"

#include "base/error.hpp"
#include "store/file/copying.hpp"
#include "store/file/migrate.hpp"
#include "store/file/scratch.hpp"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fcntl.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <fmt/format.h>

#include <array>
#include <cerrno>
#include <fstream>
#include <map>
#include <optional>
#include <string>
#include <system_error>
#include <utility>

namespace barrow::store {
namespace {

namespace fs = std::filesystem;

// A connection stays with the thread that opened it: SQLite need not lock it at every column read.
constexpr int one_thread = SQLITE_OPEN_NOMUTEX;
constexpr int writing = SQLITE_OPEN_READWRITE | one_thread;
constexpr int looking = SQLITE_OPEN_READONLY | one_thread;

/// Whether this program may use the file or folder so (R_OK, W_OK); errno says why not.
bool may(const fs::path& path, int how) {
    return ::faccessat(AT_FDCWD, path.c_str(), how, AT_EACCESS) == 0;
}

/// What the system says against using the file, or what SQLite said when it says nothing.
std::string cause(const fs::path& path, const char* said) {
    if (!may(path, R_OK) || !may(path, W_OK) || !may(folder_of(path), W_OK | X_OK))
        return std::generic_category().message(errno);
    return said;
}

base::Error damaged(const std::string& file, const std::string& how) {
    return {base::Kind::shop, fmt::format("the shop {} is damaged ({})", file, how),
            "go back to a copy made with: barrow backup"};
}

/// A plain SQLITE_ERROR is a fault in a statement, or of a file that is not built as it says it is.
base::Error translated_plain(const std::string& file, const std::string& said) {
    for (const char* of_the_file :
         {"no such table", "no such column", "no such view", "no such index", "integer overflow",
          "has no column", "malformed", "unsupported file format"})
        if (said.find(of_the_file) != std::string::npos) return damaged(file, said);
    return base::broken(said);
}

base::Error translated(const SQLite::Exception& error, const fs::path& path) {
    const std::string file = path.string();
    // The lower byte is the kind of the error, the rest its details.
    switch (error.getErrorCode() & 0xff) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
    case SQLITE_PROTOCOL:
    case SQLITE_SCHEMA:
        return {base::Kind::shop, fmt::format("the shop {} is in use by another program", file),
                "try again when it is done"};
    case SQLITE_NOTADB:
        return {base::Kind::shop, fmt::format("{} is not a shop of this program", file),
                "name another file with --shop, or make a new shop with: barrow init"};
    case SQLITE_CORRUPT:
    case SQLITE_FORMAT:
    case SQLITE_MISMATCH:
    case SQLITE_TOOBIG: return damaged(file, error.what());
    case SQLITE_FULL:
    case SQLITE_IOERR:
    case SQLITE_CANTOPEN:
    case SQLITE_PERM:
    case SQLITE_READONLY:
    case SQLITE_AUTH:
    case SQLITE_NOLFS:
    case SQLITE_NOMEM:
        return {base::Kind::machine,
                fmt::format("{} cannot be read or written ({})", file, cause(path, error.what())),
                "look at free space and permissions"};
    case SQLITE_ERROR: return translated_plain(file, error.what());
    default: return base::broken(error.what());
    }
}

base::Error unreachable(const fs::path& path, int error) {
    return {
        base::Kind::machine,
        fmt::format("{} cannot be read: {}", path.string(), std::generic_category().message(error)),
        "look at the name and permissions"};
}

/// Throws unless there is a file that can be read.
void refuse_unreachable(const fs::path& path) {
    struct stat status {};
    if (::stat(path.c_str(), &status) != 0) {
        if (errno != ENOENT && errno != ENOTDIR) throw unreachable(path, errno);
        throw base::Error(base::Kind::shop, fmt::format("there is no shop {}", path.string()),
                          "make one with: barrow init");
    }
    if (S_ISDIR(status.st_mode))
        throw base::Error(base::Kind::shop,
                          fmt::format("{} is a folder, not a shop", path.string()),
                          "name the file in it with --shop");
    if (!may(path, R_OK)) throw unreachable(path, errno);
}

/// How SQLite is to be asked for a shop whose folder may not be written. One that still has a
/// write-ahead log in its header would want to make side files: unless there is a log to be read,
/// it is opened as a file that nobody changes.
std::string name_for_looking(const fs::path& path) {
    std::string name = "file:";
    for (const char c : fs::absolute(path).string())
        name += c == '?' || c == '#' || c == '%' ? fmt::format("%{:02x}", static_cast<int>(c))
                                                 : std::string(1, c);
    std::array<char, 20> header{};
    std::ifstream(path, std::ios::binary).read(header.data(), header.size());
    struct stat status {};
    const bool logged =
        ::stat((path.string() + "-wal").c_str(), &status) == 0 && status.st_size > 0;
    return header[18] == 2 && !logged ? name + "?immutable=1" : name;
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
    std::map<std::string, std::unique_ptr<SQLite::Statement>>
        kept; ///< let go of before the connection is
};

Database::Database(fs::path shown, const std::string& file, int flags)
    : path_(std::move(shown)), read_only_((flags & SQLITE_OPEN_READONLY) != 0),
      connection_(new Connection{SQLite::Database(file, flags, busy_timeout_ms), {}}) {}

Database::Database(Database&& other) noexcept = default;
Database& Database::operator=(Database&& other) noexcept = default;
Database::~Database() = default;

SQLite::Database& Database::sql() {
    return connection_->sql;
}

std::unique_ptr<SQLite::Statement> Database::lend(const std::string& text) {
    const auto kept = connection_->kept.find(text);
    if (kept == connection_->kept.end())
        return std::make_unique<SQLite::Statement>(connection_->sql, text);
    auto statement = std::move(kept->second);
    connection_->kept.erase(kept);
    return statement;
}

void Database::give_back(std::string text, std::unique_ptr<SQLite::Statement> statement) noexcept {
    try {
        statement->tryReset(); // says once more what the last step said, which was thrown already
        statement->clearBindings();
        connection_->kept.try_emplace(std::move(text), std::move(statement));
    } catch (const std::exception&) {
        return; // it is prepared anew next time
    }
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
    // The folder, too, is put on the disk after the journal is gone: only then is a commit certain.
    sql.exec("PRAGMA synchronous = EXTRA");
    if (!read_only_) leave_write_ahead_log();
}

/// Shops of earlier programs had a log beside them. While another program has one open it stays.
void Database::leave_write_ahead_log() {
    SQLite::Database& sql = connection_->sql;
    if (sql.execAndGet("PRAGMA journal_mode").getString() != "wal") return;
    sql.setBusyTimeout(0);
    try {
        sql.exec("PRAGMA journal_mode = DELETE");
    } catch (const SQLite::Exception& error) {
        if ((error.getErrorCode() & 0xff) != SQLITE_BUSY) throw;
    }
    sql.setBusyTimeout(busy_timeout_ms);
}

Database Database::create(const fs::path& path, const std::function<void(Database&)>& first) {
    const auto make = [&](const std::string& file) {
        Database made(path, file, writing | SQLITE_OPEN_CREATE);
        made.harden();
        make_fresh(made.sql());
        if (first) first(made);
        return made;
    };
    std::optional<Database> made;
    if (path == ":memory:") {
        guarded(path, [&] { made = make(path.string()); });
        return std::move(*made);
    }
    struct stat status {};
    if (::lstat(path.c_str(), &status) == 0)
        throw base::refused(fmt::format("{} exists already", path.string()),
                            "a shop is never overwritten: name another file with --shop");
    if (errno != ENOENT) throw unreachable(path, errno);
    refuse_stray_journals(path);
    Scratch scratch(path);
    guarded(path, [&] { make(scratch.path().string()); });
    scratch.publish(path);
    return open(path);
}

Database Database::open(const fs::path& path) {
    refuse_unreachable(path);
    clear_scratch(folder_of(path));
    const bool writable = may(path, W_OK) && may(folder_of(path), W_OK | X_OK);
    std::optional<Database> opened;
    guarded(path, [&] {
        opened = writable ? Database(path, path.string(), writing)
                          : Database(path, name_for_looking(path), looking | SQLITE_OPEN_URI);
        refuse_foreign(opened->sql(), path);
        opened->harden();
        if (writable) {
            bring_up_to_date(opened->sql(), path, Older::kept);
        } else if (version_of(opened->sql()) != newest_version()) {
            throw base::Error(base::Kind::machine,
                              fmt::format("the shop {} has the older version {}, and cannot be "
                                          "written where it is to bring it up to date",
                                          path.string(), version_of(opened->sql())),
                              "copy it to a folder that can be written");
        }
    });
    return std::move(*opened);
}

Database Database::open_scratch(const fs::path& scratch, const fs::path& shown) {
    std::optional<Database> opened;
    guarded(shown, [&] {
        opened = Database(shown, scratch.string(), writing);
        refuse_foreign(opened->sql(), shown);
        opened->harden();
        bring_up_to_date(opened->sql(), shown, Older::not_kept);
    });
    return std::move(*opened);
}

} // namespace barrow::store
