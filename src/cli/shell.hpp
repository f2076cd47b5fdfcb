#pragma once

#include "base/date.hpp"
#include "workshop/shared/context.hpp"

#include <filesystem>
#include <functional>
#include <iosfwd>
#include <map>
#include <optional>
#include <string>

namespace barrow::cli {

/// The world outside, passed in so that tests can turn the clock and read the output.
struct World {
    std::ostream& out; ///< results, and nothing else
    std::ostream& err; ///< messages
    std::istream& in;  ///< for the file name "-"
    std::map<std::string, std::string> environment;
    std::string now_utc; ///< "2027-03-14T09:30:00Z"
};

/// What all commands share: the global options and how to get at the shop.
class Shell {
public:
    explicit Shell(World& world) : world_(world) {}

    std::string shop_option; ///< --shop
    bool json = false;       ///< --json
    bool dry_run = false;    ///< --dry-run, of the commands that write into the shop

    /// Set by the command that was given; run after parsing.
    std::function<void()> action;

    /// --shop, else $BARROW_SHOP, else paperbarrow/shop.db under the XDG data home.
    std::filesystem::path shop_path() const;

    /// The shop, opened. Throws base::Error (Kind::shop).
    store::Database open() const;

    /// Day the commands take place: today by the clock, or $BARROW_TODAY.
    base::Date today() const;

    /// What a use case that writes is given.
    workshop::Context context(store::Database& database, const std::string& note = {}) const;

    /// Says beside the result that nothing was kept, when that was asked for: once the command is
    /// done, so that none has to think of it.
    void remark_dry_run() const;

    /// A result: the document when --json was given, else the screen.
    void show(const std::function<std::string()>& screen,
              const std::function<std::string()>& document) const;

    /// A result that only people read (after a command that writes).
    void say(const std::string& text) const;

    /// A message beside the result.
    void remark(const std::string& text) const;

    /// A file's bytes; "-" is standard input. Throws base::Error (Kind::machine) when unreadable.
    std::string read_file(const std::string& path) const;

    /// Writes a file. Throws base::Error (Kind::machine).
    static void write_file(const std::filesystem::path& path, const std::string& text);

    World& world() const { return world_; }

private:
    World& world_;
};

} // namespace barrow::cli
