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
    std::string now_utc;   ///< "2027-03-14T09:30:00Z"
    bool terminal = false; ///< a person sits there: questions may be asked
};

/// What all commands share: the global options and how to get at the shop.
class Shell {
public:
    explicit Shell(World& world) : world_(world) {}

    std::string shop_option; ///< --shop
    bool json = false;       ///< --json
    bool version = false;    ///< --version
    bool dry_run = false;    ///< --dry-run, of the commands that write into the shop
    std::string note;        ///< --note, kept with the entry

    /// --shop, else $BARROW_SHOP, else paperbarrow/shop.db under the XDG data home.
    std::filesystem::path shop_path() const;

    /// The shop, opened. Throws base::Error (Kind::shop).
    store::Database open() const;

    /// Day the commands take place: today by the clock, or $BARROW_TODAY.
    base::Date today() const;

    /// What a use case that writes is given: the shop, the day, the note, whether it is a dry run.
    workshop::Context context(store::Database& database);

    /// Said beside the result once a command is done, so that none has to think of it: that nothing
    /// was kept of a dry run, and that the day of what was written is not today.
    void remark_at_end() const;

    /// True once a command has written something that stays.
    bool has_written() const { return wrote_ && !dry_run; }

    /// A result: the document when --json was given, else the screen.
    void show(const std::function<std::string()>& screen,
              const std::function<std::string()>& document) const;

    /// What a command that writes says of it. With --json it goes beside the output.
    void say(const std::string& text) const;

    /// A result that has no document, such as a page of help.
    void answer(const std::string& text) const;

    /// A message beside the result.
    void remark(const std::string& text) const;

    /// A file's bytes; "-" is standard input. Throws base::Error (Kind::machine) when unreadable.
    std::string read_file(const std::string& path) const;

    World& world() const { return world_; }

private:
    base::Date clock_day() const;

    World& world_;
    mutable bool wrote_ = false;
};

} // namespace barrow::cli
