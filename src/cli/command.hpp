#pragma once

#include <cstdint>
#include <deque>
#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace barrow::cli {

/// One option, flag or argument of a command: how it is written, and where its value goes. What a
/// value is bound to must live until the command line is read.
struct Option {
    using Target = std::variant<bool*, std::string*, std::int64_t*, std::optional<std::int64_t>*,
                                std::vector<std::string>*, std::function<void(const std::string&)>>;

    std::vector<std::string> names; ///< "-m", "--make"; empty for an argument
    std::string argument;           ///< name of an argument; empty for an option
    std::string value;              ///< stands for the value in the help; empty for a flag
    std::string about;              ///< one sentence, without a full stop
    Target target;
    bool must_be_given = false;
    bool once_each_time = false;                               ///< --set a=1 --set b=2
    std::optional<std::pair<std::int64_t, std::int64_t>> span; ///< least and most, both allowed
    std::vector<std::string> words;                            ///< the only values there are
    const Option* only_with = nullptr;                         ///< needs this other option

    // Each of these changes the option and gives it back, to be written one after the other.

    Option* required();
    /// What stands for its value in the help: "DATE".
    Option* type_name(const std::string& name);
    /// One value each time it is named, as often as it is named: --set a=1 --set b=2.
    Option* repeats();
    /// Only together with another option.
    Option* needs(const Option* other);
    /// A whole number from `least` to `most`.
    Option* range(std::int64_t least, std::int64_t most);
    Option* one_of(std::vector<std::string> allowed);

    bool is_flag() const { return std::holds_alternative<bool*>(target); }
    bool takes_many() const { return std::holds_alternative<std::vector<std::string>*>(target); }
    /// The name an error or a list calls it by: "--make", or "design" for an argument.
    const std::string& main_name() const { return names.empty() ? argument : names.back(); }
};

/// One command and the commands below it. The parser, `--help`, the manual and the completions all
/// read this description.
struct Command {
    std::string name;
    std::string about;          ///< one sentence, without a full stop
    std::deque<Option> options; ///< arguments too; in places that stay
    std::deque<Command> commands;
    std::vector<std::string> examples;  ///< whole lines as typed; a test runs each
    std::function<std::string()> notes; ///< text below the options in the help, if any
    std::function<void()> chosen;       ///< called once the values are read
    Command* above = nullptr;
    bool hidden = false; ///< works, and stands in no list

    Command* add_subcommand(const std::string& below, const std::string& sentence);

    /// `names`: "--set", "-m,--make", or a bare word for an argument.
    Option* add_option(const std::string& names, Option::Target target,
                       const std::string& sentence);
    Option* add_option(const std::string& names, std::string& value, const std::string& sentence) {
        return add_option(names, Option::Target(&value), sentence);
    }
    Option* add_option(const std::string& names, std::int64_t& value, const std::string& sentence) {
        return add_option(names, Option::Target(&value), sentence);
    }
    Option* add_option(const std::string& names, std::optional<std::int64_t>& value,
                       const std::string& sentence) {
        return add_option(names, Option::Target(&value), sentence);
    }
    Option* add_option(const std::string& names, std::vector<std::string>& values,
                       const std::string& sentence) {
        return add_option(names, Option::Target(&values), sentence);
    }
    /// An option whose text is handed to a function.
    Option* add_option_function(const std::string& names,
                                std::function<void(const std::string&)> taken,
                                const std::string& sentence) {
        return add_option(names, Option::Target(std::move(taken)), sentence);
    }
    Option* add_flag(const std::string& names, bool& given, const std::string& sentence) {
        return add_option(names, Option::Target(&given), sentence);
    }

    void callback(std::function<void()> given) { chosen = std::move(given); }
    void footer(const std::string& text) {
        notes = [text] { return text; };
    }
    void footer(std::function<std::string()> text) { notes = std::move(text); }
    void example(const std::string& line) { examples.push_back(line); }

    /// The words that lead to it: "batch plan"; empty for the program itself.
    std::string path() const;
    /// The command below it with this name; null when there is none.
    const Command* find(const std::string& name) const;
};

/// Calls `visit` for a command and, in order, for every command below it that is not hidden.
void for_each_command(const Command& top, const std::function<void(const Command&)>& visit);

} // namespace barrow::cli
