#include "cli/parser.hpp"

#include "base/error.hpp"
#include "base/text.hpp"

// This file alone reads the parser's header: it takes longer to compile than all of ours.
#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace barrow::cli {
namespace {

/// "barrow batch plan --help".
std::string see_help(const Command& command) {
    const std::string path = command.path();
    return fmt::format("see: barrow {}--help", path.empty() ? "" : path + " ");
}

/// The description as the parser wants it, and the way back from what the parser found.
class Parser {
public:
    Parser(const Command& program, const std::vector<std::string>& words)
        : app_("", program.name), words_(words) {
        app_.fallthrough();
        add(app_, program);
    }

    /// Throws what the parser throws.
    void parse() {
        std::vector<std::string> words = words_;
        std::reverse(words.begin(), words.end()); // it takes them from the back
        app_.parse(std::move(words));
    }

    const Command& last_named() const { return *commands_.at(deepest()); }

    /// The first word that the parser could not place.
    std::string leftover() const {
        for (const CLI::App* at = deepest(); at != nullptr; at = at->get_parent())
            if (const auto words = at->remaining(); !words.empty()) return words.front();
        return app_.remaining(true).front();
    }

private:
    const CLI::App* deepest() const {
        const CLI::App* at = &app_;
        for (;;) {
            const auto used = at->get_subcommands();
            if (used.empty()) return at;
            at = used.front();
        }
    }

    void add(CLI::App& app, const Command& command) {
        commands_[&app] = &command;
        // One command at a time: a word after it is an argument, though it names a command too.
        app.require_subcommand(0, 1);
        for (const Option& option : command.options) add(app, option);
        // A command that no word names cannot be asked for, and to describe them all takes longer
        // than most commands run.
        for (const Command& below : command.commands)
            if (std::find(words_.begin(), words_.end(), below.name) != words_.end())
                add(*app.add_subcommand(below.name, below.about), below);
    }

    void add(CLI::App& app, const Option& option) {
        const std::string names = option.names.empty()
                                      ? option.argument
                                      : fmt::format("{}", fmt::join(option.names, ","));
        CLI::Option* added = std::visit(
            [&](const auto& target) { return add_to(app, names, target); }, option.target);
        options_[&option] = added;
        if (option.must_be_given) added->required();
        if (option.once_each_time) added->expected(1)->take_all();
        if (option.span) added->check(CLI::Range(option.span->first, option.span->second));
        if (!option.words.empty()) added->check(CLI::IsMember(option.words));
        if (option.only_with != nullptr) added->needs(options_.at(option.only_with));
    }

    static CLI::Option* add_to(CLI::App& app, const std::string& names, bool* target) {
        return app.add_flag(names, *target);
    }
    static CLI::Option* add_to(CLI::App& app, const std::string& names,
                               const std::function<void(const std::string&)>& target) {
        return app.add_option_function<std::string>(names, target);
    }
    template <typename Value>
    static CLI::Option* add_to(CLI::App& app, const std::string& names, Value* target) {
        return app.add_option(names, *target);
    }

    CLI::App app_;
    const std::vector<std::string>& words_;
    std::map<const CLI::App*, const Command*> commands_;
    std::map<const Option*, CLI::Option*> options_;
};

std::vector<std::string> option_names(const Command& command) {
    std::vector<std::string> names = {"--help"};
    for (const Command* at = &command; at != nullptr; at = at->above)
        for (const Option& option : at->options)
            for (const std::string& name : option.names)
                if (name.size() > 2) names.push_back(name);
    return names;
}

base::Error not_placed(const Command& at, const std::string& word) {
    std::vector<std::string> known;
    std::string what;
    const std::string path = at.path();
    if (word.substr(0, 1) == "-") {
        known = option_names(at);
        what = fmt::format("{} has no option {}", path.empty() ? "barrow" : path, word);
    } else {
        for (const Command& command : at.commands)
            if (!command.hidden) known.push_back(command.name);
        what = known.empty()
                   ? fmt::format("{} does not expect \"{}\"", path, word)
                   : fmt::format("there is no command {}{}", path.empty() ? "" : path + " ", word);
    }
    const std::string hint = base::did_you_mean(word, known);
    return {base::Kind::usage, what, hint.empty() ? see_help(at) : hint};
}

/// "-make" is read as "-m ake". Where a long option of that name exists, one dash is missing.
void look_for_single_dashes(const Command& program, const std::vector<std::string>& words) {
    for (const std::string& word : words) {
        if (word == "--") return;
        if (word.size() < 3 || word[0] != '-' || word[1] == '-') continue;
        const std::string meant = "-" + word.substr(0, word.find('='));
        bool known = meant == "--help" || meant == "--version";
        for_each_command(program, [&](const Command& command) {
            for (const Option& option : command.options)
                known = known || std::count(option.names.begin(), option.names.end(), meant) > 0;
        });
        if (known)
            throw base::Error(base::Kind::usage,
                              fmt::format("{} has one dash where two are needed", word),
                              fmt::format("write {}", "-" + word));
    }
}

} // namespace

Asked parse(const Command& program, const std::vector<std::string>& words) {
    look_for_single_dashes(program, words);
    Parser parser(program, words);
    try {
        parser.parse();
    } catch (const CLI::CallForHelp&) {
        return {&parser.last_named(), true};
    } catch (const CLI::ExtrasError&) {
        throw not_placed(parser.last_named(), parser.leftover());
    } catch (const CLI::ParseError& error) {
        throw base::Error(base::Kind::usage, error.what(), see_help(parser.last_named()));
    }
    return {&parser.last_named(), false};
}

} // namespace barrow::cli
