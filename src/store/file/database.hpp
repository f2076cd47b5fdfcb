#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <utility>

// Only the store sees more of SQLite than these two names: no header that others include does.
namespace SQLite {
class Database;
class Statement;
} // namespace SQLite

namespace barrow::store {

/// The number that marks an SQLite file as a shop of this program ("brrw" in the file header).
inline constexpr int application_id = 0x62727277;

/// An open shop file: one connection, opened and hardened in one place.
///
/// Every connection has foreign keys on, trusted_schema off, defensive mode on, double-quoted
/// strings off, cell checks on, a busy timeout of five seconds, a rollback journal that is deleted
/// at each commit, and synchronous EXTRA (a commit that was reported survives a power cut).
class Database {
public:
    /// Makes a new shop file with the structure of today and what `first` writes into it. It is
    /// made under a scratch name and named `path` when it is whole, so there is all of it or
    /// nothing. Throws base::Error: Kind::refused when the file exists, Kind::machine when it
    /// cannot be written. ":memory:" makes a shop without a file, for tests.
    static Database create(const std::filesystem::path& path,
                           const std::function<void(Database&)>& first = {});

    /// Opens an existing shop. An older one is kept beside itself (`<name>.version-<N>`, N the
    /// version it had), then brought up to date. One that may not be written, or whose folder may
    /// not, is opened read-only. Throws base::Error: Kind::shop when there is no such file, when it
    /// is not a shop, is damaged, or was written by a newer version of the program; Kind::machine
    /// when it cannot be reached, or is older and cannot be brought up to date where it is.
    static Database open(const std::filesystem::path& path);

    /// Opens a copy of a shop in a file that nobody else knows, and brings it up to date without
    /// keeping what it was. Messages name it `shown`.
    static Database open_scratch(const std::filesystem::path& scratch,
                                 const std::filesystem::path& shown);

    Database(Database&& other) noexcept;
    Database& operator=(Database&& other) noexcept;
    ~Database();

    SQLite::Database& sql();
    const std::filesystem::path& path() const { return path_; }
    /// True when the shop can only be looked at.
    bool read_only() const { return read_only_; }

    /// The key under which the next transaction is kept (see Once in ledger/transaction.hpp).
    const std::string& written_under() const { return key_; }
    void write_under(std::string key) { key_ = std::move(key); }

    /// A prepared statement of that text, for one Query (see rows.hpp) until it gives it back.
    std::unique_ptr<SQLite::Statement> lend(const std::string& text);
    void give_back(std::string text, std::unique_ptr<SQLite::Statement> statement) noexcept;

private:
    Database(std::filesystem::path shown, const std::string& file, int flags);
    void harden();
    void leave_write_ahead_log();

    std::filesystem::path path_; ///< as messages name it
    bool read_only_ = false;
    std::string key_;
    struct Connection;
    std::unique_ptr<Connection> connection_;
};

/// Runs `action`, turning what SQLite throws into base::Error that names `path`. Kind::shop: the
/// file is locked, damaged, foreign, lacks tables or columns, or holds numbers too large to add up.
/// Kind::machine: a full disk, a missing permission. A broken constraint is base::broken: the rules
/// are checked before anything is written, so reaching one is a fault of the program.
void guarded(const std::filesystem::path& path, const std::function<void()>& action);

} // namespace barrow::store
