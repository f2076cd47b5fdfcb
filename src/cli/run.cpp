#include "cli/run.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "cli/commands.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <new>
#include <ostream>

namespace barrow::cli {
namespace {

constexpr int usage_code = static_cast<int>(base::Kind::usage);
constexpr int machine_code = static_cast<int>(base::Kind::machine);

constexpr const char* about =
    "barrow: materials, cut plans, costs and prices for someone who makes paper journals.\n\n"
    "  barrow init --currency GBP                     a new shop\n"
    "  barrow material import papers.csv              what you buy\n"
    "  barrow receive --from receipts.csv             what has come\n"
    "  barrow design bring quayside.toml              what you make\n"
    "  barrow cost quayside --make 12                 what it takes, costs and should sell for\n"
    "  barrow plan quayside --make 12                 how to cut it\n"
    "  barrow make quayside --make 12                 book it as made\n"
    "  barrow reorder quayside=20 --by 2027-05-01     what to buy before the fair\n";

constexpr const char* footer =
    "Exit codes: 0 done, 1 refused, 2 wrong use of the command line, 3 bad input data,\n"
    "4 the shop file is damaged, locked or from a newer version, 5 the machine failed.";

/// The command in use when the words went wrong, for help that fits.
const CLI::App* deepest(const CLI::App& app) {
    const CLI::App* at = &app;
    for (;;) {
        const auto used = at->get_subcommands();
        if (used.empty()) return at;
        at = used.front();
    }
}

std::vector<std::string> command_names(const CLI::App& app) {
    std::vector<std::string> names;
    for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; }))
        names.push_back(command->get_name());
    return names;
}

std::vector<std::string> option_names(const CLI::App& app) {
    std::vector<std::string> names;
    for (const CLI::App* at = &app; at != nullptr; at = at->get_parent())
        for (const CLI::Option* option : at->get_options())
            for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
    return names;
}

/// "barrow stocktake " for the commands above `at`, `at` left out.
std::string path_above(const CLI::App* at) {
    std::string path;
    for (const CLI::App* app = at->get_parent(); app != nullptr; app = app->get_parent())
        path.insert(0, app->get_name() + (path.empty() ? "" : " "));
    return path;
}

std::string help_text(const CLI::App& app) {
    const CLI::App* at = deepest(app);
    return at->help(path_above(at));
}

/// Words the parser could not place: named, with the nearest command or option there is.
std::string leftover_text(const CLI::App& app, const std::string& word) {
    const CLI::App* at = deepest(app);
    const bool option = word.substr(0, 1) == "-";
    const auto known = option ? option_names(*at) : command_names(*at);
    const std::string name = at->get_parent() == nullptr ? "" : at->get_name() + " ";
    std::string text =
        option          ? fmt::format("{}has no option {}", name.empty() ? "barrow " : name, word)
        : known.empty() ? fmt::format("{}does not expect \"{}\"", name, word)
                        : fmt::format("there is no command {}{}", name, word);
    const std::string hint = base::did_you_mean(word, known);
    if (!hint.empty()) return text + " (" + hint + ")";
    return text + fmt::format(" (see: barrow {}--help)", name);
}

class Program {
public:
    explicit Program(World& world)
        : world_(world), shell_(world), app_(about, "barrow"), command_(app_) {
        app_.footer(footer);
        app_.add_option("--shop", shell_.shop_option,
                        "The shop file (else $BARROW_SHOP, else the one in your data folder)")
            ->type_name("FILE");
        app_.add_flag("--json", shell_.json, "Print one JSON document instead of text");
        app_.set_version_flag("--version", std::string("barrow ") + BARROW_VERSION);
        app_.fallthrough();
        add_bench_commands(command_, shell_);
        add_batch_commands(command_, shell_);
        add_buying_commands(command_, shell_);
        add_order_commands(command_, shell_);
        add_stock_commands(command_, shell_);
        add_offcut_commands(command_, shell_);
        add_leaving_commands(command_, shell_);
        add_stocktake_commands(command_, shell_);
        add_journal_commands(command_, shell_);
        add_fair_commands(command_, shell_);
        add_history_commands(command_, shell_);
        add_report_commands(command_, shell_);
        add_export_commands(command_, shell_);
        add_design_commands(command_, shell_);
        add_calculate_command(command_, shell_);
        add_catalogue_commands(command_, shell_);
        add_book_commands(command_, shell_);
        add_shop_commands(command_, shell_);
        add_layout_command(command_, shell_);
        add_page_commands(command_, shell_);
    }

    int run(std::vector<std::string> words) {
        std::reverse(words.begin(), words.end()); // the parser takes them from the back
        try {
            app_.parse(words);
        } catch (const CLI::CallForVersion& version) {
            world_.out << version.what() << "\n";
            return 0;
        } catch (const CLI::CallForHelp&) {
            world_.out << help_text(app_);
            return 0;
        } catch (const CLI::ExtrasError&) {
            complain(leftover_text(app_, first_leftover()));
            return usage_code;
        } catch (const CLI::ParseError& error) {
            complain(base::Error(base::Kind::usage, error.what(),
                                 fmt::format("see: barrow {}--help", command_path()))
                         .what());
            return usage_code;
        }
        if (!shell_.action) {
            // A bare group, or nothing at all: say what there is.
            world_.err << help_text(app_);
            return usage_code;
        }
        return act();
    }

private:
    std::string first_leftover() const {
        for (const CLI::App* at = deepest(app_); at != nullptr; at = at->get_parent())
            if (const auto words = at->remaining(); !words.empty()) return words.front();
        return app_.remaining(true).front();
    }

    std::string command_path() const {
        std::string path;
        for (const CLI::App* at = deepest(app_); at->get_parent() != nullptr; at = at->get_parent())
            path.insert(0, at->get_name() + " ");
        return path;
    }

    void complain(const std::string& text) const {
        std::string line;
        for (const char c : text + "\n") {
            line += c;
            if (c != '\n') continue;
            world_.err << "barrow: " << line;
            line.clear();
        }
    }

    int act() {
        try {
            shell_.action();
            shell_.remark_dry_run();
            world_.out.flush();
            if (!world_.out) {
                complain("the output cannot be written");
                return machine_code;
            }
            return 0;
        } catch (const base::Error& error) {
            complain(error.what());
            return static_cast<int>(error.kind());
        } catch (const std::bad_alloc&) {
            complain("there is not enough memory for this");
            return machine_code;
        } catch (const std::filesystem::filesystem_error& error) {
            complain(fmt::format("{} cannot be read or written: {}", error.path1().string(),
                                 error.code().message()));
            return machine_code;
        } catch (const std::exception& error) {
            complain(base::broken(error.what()).what());
            return machine_code;
        }
    }

    World& world_;
    Shell shell_;
    CLI::App app_;
    Command command_; ///< the same, as our commands see it
};

} // namespace

int run(const std::vector<std::string>& words, World& world) {
    return Program(world).run(words);
}

} // namespace barrow::cli
