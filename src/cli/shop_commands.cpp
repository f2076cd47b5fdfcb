#include "cli/commands.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "cli/options.hpp"
#include "print/books/settings.hpp"
#include "workshop/books/shop_file.hpp"
#include "workshop/stock/stockroom.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <istream>
#include <memory>
#include <ostream>

namespace barrow::cli {
namespace {

using InitSettings = std::vector<std::pair<std::string, std::string>>;

/// Asks for one setting that was not given, until the answer can be understood. An empty answer
/// leaves it as it is.
void ask(const Shell& shell, InitSettings& given, const char* name, const char* question) {
    const auto said = [&](const auto& setting) { return setting.first == name; };
    if (std::any_of(given.begin(), given.end(), said)) return;
    World& world = shell.world();
    for (;;) {
        world.out << question << ": " << std::flush;
        std::string answer;
        if (!std::getline(world.in, answer) || base::trimmed(answer).empty()) return;
        given.emplace_back(name, base::trimmed(answer));
        try {
            workshop::Settings tried;
            for (const auto& [other, value] : given) workshop::apply_setting(tried, other, value);
            return;
        } catch (const base::Error& error) {
            world.err << error.what() << "\n";
            given.pop_back();
        }
    }
}

/// What a price hangs on, asked of a person at a terminal.
void ask_for_prices(const Shell& shell, InitSettings& given) {
    ask(shell, given, "currency", "Currency (GBP, EUR, ...)");
    ask(shell, given, "hourly-rate", "What an hour of your work costs (empty: not yet)");
    ask(shell, given, "overheads", "Rent, light and tools, in percent of the cost (empty: none)");
    ask(shell, given, "margin", "Wanted profit, in percent of the price (empty: 50%)");
}

void add_init(Command& app, Shell& shell) {
    auto* command = app.add_subcommand("init", "Make a new shop");
    const auto given = std::make_shared<InitSettings>();
    for (const workshop::SettingLine& line : workshop::describe(workshop::Settings{}))
        command->add_option_function(
            "--" + line.name,
            [given, name = line.name](const std::string& value) {
                given->emplace_back(name, value);
            },
            line.about);
    command->callback([&shell, given] {
        if (shell.world().terminal && !shell.json && !std::filesystem::exists(shell.shop_path()))
            ask_for_prices(shell, *given);
        // Money can only be read once the currency is known.
        std::stable_partition(given->begin(), given->end(),
                              [](const auto& setting) { return setting.first == "currency"; });
        workshop::init(shell.shop_path(), *given, shell.today(), shell.world().now_utc);
        shell.say(fmt::format("The shop {} is ready.\n", shell.shop_path().string()));
        const bool rate = std::any_of(given->begin(), given->end(), [](const auto& setting) {
            return setting.first == "hourly-rate";
        });
        if (!rate)
            shell.say("Labour is not counted, and there are no prices, until you say what an "
                      "hour costs:\n  barrow settings hourly-rate 12\n");
    });
}

void add_settings(Command& app, Shell& shell) {
    auto* command = app.add_subcommand("settings", "Show the shop's settings, or change one");
    struct Given {
        std::string name, value;
    };
    const auto given = std::make_shared<Given>();
    command->add_option("name", given->name, "The setting to change");
    auto* value = command->add_option("value", given->value, "Its new value");
    add_dry_run(*command, shell)->needs(value);
    command->callback([&shell, given] {
        if (!given->name.empty() && given->value.empty())
            throw base::Error(base::Kind::usage, "the new value is missing",
                              "write for example: barrow settings margin 55%");
        store::Database database = shell.open();
        workshop::Settings settings;
        if (given->name.empty()) {
            settings = workshop::read_settings(database);
        } else {
            workshop::Context context = shell.context(database);
            settings = workshop::change_setting(context, given->name, given->value);
        }
        const auto lines = workshop::describe(settings);
        shell.show([&] { return print::screen(lines); }, [&] { return print::document(lines); });
        if (given->name != "cost-order" || shell.dry_run || shell.json) return;
        const std::int64_t entry = workshop::log(database, 1).front().posting.id;
        shell.say(fmt::format("\nBooked as entry {0}. It holds from now on; what was used "
                              "before keeps its cost.\nTo go back: barrow reverse {0}\n",
                              entry));
    });
}

void add_shop_check(Command& app, Shell& shell) {
    auto* command = app.add_subcommand("check", "Check the shop file and everything booked in it");
    command->callback([&shell] {
        store::Database database = shell.open();
        const auto problems = workshop::check(database);
        if (shell.json) shell.world().out << print::check_document(problems);
        if (!problems.empty()) {
            std::vector<base::Problem> found;
            found.reserve(problems.size());
            for (const std::string& problem : problems) found.push_back({{}, problem, {}});
            throw base::Error(base::Kind::shop, found);
        }
        if (!shell.json)
            shell.say("The shop is sound: every penny and every sheet is accounted for.\n");
    });
}

void add_copies(Command& app, Shell& shell) {
    auto* backup =
        app.add_subcommand("backup", "Write a copy of the shop, even while it is in use");
    const auto to = std::make_shared<std::string>();
    backup->add_option("file", *to, "The copy to write")->required();
    backup->callback([&shell, to] {
        store::Database database = shell.open();
        workshop::backup(database, *to);
        shell.say(fmt::format("The shop is copied to {}.\n", *to));
    });
    auto* restore = app.add_subcommand("restore", "Replace the shop with a copy");
    const auto from = std::make_shared<std::string>();
    restore->add_option("file", *from, "The copy to put back")->required();
    restore->callback([&shell, from] {
        std::string stamp = shell.world().now_utc;
        stamp.erase(std::remove(stamp.begin(), stamp.end(), ':'), stamp.end());
        const auto restored = workshop::restore(shell.shop_path(), *from, stamp);
        shell.say(fmt::format("The shop is as it was in {}.\n", *from));
        if (!restored.kept.empty())
            shell.say(fmt::format("What it replaced is kept as {}.\n", restored.kept.string()));
    });
}

} // namespace

void add_shop_commands(Command& app, Shell& shell) {
    add_init(app, shell);
    add_settings(app, shell);
    add_shop_check(app, shell);
    add_copies(app, shell);
}

} // namespace barrow::cli
