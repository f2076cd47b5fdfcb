#include "cli/shell.hpp"

#include "base/error.hpp"
#include "store/file/database.hpp"
#include "workshop/shared/days.hpp"
#include "workshop/shared/fields.hpp"

#include <fmt/format.h>

#include <fstream>
#include <iterator>
#include <ostream>
#include <system_error>

namespace barrow::cli {
namespace {

namespace fs = std::filesystem;

std::string lookup(const World& world, const std::string& name) {
    const auto found = world.environment.find(name);
    return found == world.environment.end() ? std::string() : found->second;
}

} // namespace

fs::path Shell::shop_path() const {
    if (!shop_option.empty()) return shop_option;
    if (const std::string shop = lookup(world_, "BARROW_SHOP"); !shop.empty()) return shop;
    fs::path data = lookup(world_, "XDG_DATA_HOME");
    // The XDG base directory specification: a relative path is to be ignored.
    if (data.empty() || !data.is_absolute()) {
        const std::string home = lookup(world_, "HOME");
        if (home.empty())
            throw base::Error(base::Kind::usage, "no shop is named",
                              "name its file with --shop FILE, or set BARROW_SHOP");
        data = fs::path(home) / ".local" / "share";
    }
    return data / "paperbarrow" / "shop.db";
}

store::Database Shell::open() const {
    store::Database database = store::Database::open(shop_path());
    if (database.read_only())
        remark("The shop is read-only: you may not write to its file or its folder.\n");
    return database;
}

base::Date Shell::today() const {
    const std::string given = lookup(world_, "BARROW_TODAY");
    if (!given.empty()) return base::read_date(given, "BARROW_TODAY");
    return clock_day();
}

base::Date Shell::clock_day() const {
    return base::read_date(world_.now_utc.substr(0, 10), "the clock");
}

workshop::Context Shell::context(store::Database& database) {
    wrote_ = true;
    if (const std::string word = workshop::clock_behind(database, today()); !word.empty())
        remark("Note: " + word + ".\n");
    return {database, today(), world_.now_utc, dry_run ? store::Mode::dry_run : store::Mode::commit,
            workshop::plain_text(note, "--note")};
}

void Shell::remark_at_end() const {
    if (wrote_ && today() != clock_day())
        remark(fmt::format("The day is taken to be {}, not today: BARROW_TODAY is set.\n",
                           base::to_text(today())));
    if (dry_run) remark("Nothing was kept: this was a dry run.\n");
}

void Shell::show(const std::function<std::string()>& screen,
                 const std::function<std::string()>& document) const {
    world_.out << (json ? document() : screen());
}

void Shell::say(const std::string& text) const {
    wrote_ = true;
    (json ? world_.err : world_.out) << text;
}

void Shell::answer(const std::string& text) const {
    world_.out << text;
}

void Shell::remark(const std::string& text) const {
    world_.err << text;
}

std::string Shell::read_file(const std::string& path) const {
    if (path == "-")
        return {std::istreambuf_iterator<char>(world_.in), std::istreambuf_iterator<char>()};
    std::error_code failed;
    if (fs::is_directory(path, failed))
        throw base::Error(base::Kind::machine, fmt::format("{} is a folder, not a file", path));
    std::ifstream file(path, std::ios::binary);
    if (!file)
        throw base::Error(base::Kind::machine, fmt::format("{} cannot be read", path),
                          "look at its name and permissions");
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

} // namespace barrow::cli
