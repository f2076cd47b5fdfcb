#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <string>

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
/// strings off, cell checks on, a busy timeout of five seconds, write-ahead logging and
/// synchronous FULL (a commit that was reported survives a power cut).
class Database {
public:
    /// Makes a new shop file with the schema of today. Throws base::Error: Kind::refused when the
    /// file exists, Kind::machine when it cannot be written.
    static Database create(const std::filesystem::path& path);

    /// Opens an existing shop. An older shop is copied beside itself (`<name>.before-v<N>`), then
    /// brought up to date. Throws base::Error (Kind::shop) when there is no such file, when it is
    /// not a shop, is damaged, or was written by a newer version of the program.
    static Database open(const std::filesystem::path& path);

    Database(Database&& other) noexcept;
    Database& operator=(Database&& other) noexcept;
    ~Database();

    SQLite::Database& sql();
    const std::filesystem::path& path() const { return path_; }

    /// A prepared statement of that text, kept as long as the connection (see store/kept.hpp).
    SQLite::Statement& kept(const std::string& text);

private:
    Database(std::filesystem::path path, int flags);
    void harden();

    std::filesystem::path path_;
    struct Connection;
    std::unique_ptr<Connection> connection_;
};

/// Runs `action`, turning what SQLite throws into base::Error: a locked, damaged or foreign file
/// is Kind::shop, a full disk or missing permission Kind::machine, a broken constraint
/// base::broken (the rules are checked before they are written; reaching one is our mistake).
void guarded(const std::filesystem::path& path, const std::function<void()>& action);

} // namespace barrow::store
