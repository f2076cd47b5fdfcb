#pragma once

#include <cstdint>
#include <deque>
#include <functional>
#include <string>
#include <vector>

// Only command.cpp and run.cpp see the parser: its header takes longer to read than all of ours.
namespace CLI {
class App;
class Option;
} // namespace CLI

namespace barrow::cli {

/// One option, flag or argument of a command. Each function changes it and returns it.
class Option {
public:
    explicit Option(CLI::Option* option) : option_(option) {}

    Option* required();
    /// What stands for its value in the help: "DATE".
    Option* type_name(const std::string& name);
    /// One value each time it is named, as often as it is named: --set a=1 --set b=2.
    Option* repeats();
    /// Only together with another option.
    Option* needs(const Option* other);
    /// A whole number from `least` to `most`.
    Option* range(std::int64_t least, std::int64_t most);
    Option* one_of(const std::vector<std::string>& words);

private:
    CLI::Option* option_;
};

/// What a page about a command says of one option or argument.
struct OptionPage {
    std::vector<std::string> names; ///< "-m", "--make"; empty for an argument
    std::string argument;           ///< name of an argument; empty for an option
    std::string value;              ///< what stands for its value; empty for a flag
    std::string about;
    std::vector<std::string> words; ///< the words it takes, when only these
};

/// A command as it is described on its page; the same for all its subcommands.
struct CommandPage {
    std::string name;
    std::string about;
    std::string footer;
    std::vector<OptionPage> options;
    std::vector<CommandPage> commands;
};

/// One command: its words, its options and where their values go. The parser, `--help`, the manual
/// and the completions all come from it. Values are written when the command line is read; what
/// they are bound to must live until then.
class Command {
public:
    explicit Command(CLI::App& app) : app_(&app) {}

    Command* add_subcommand(const std::string& name, const std::string& about);

    /// `names`: "--set", "-m,--make", or a bare word for an argument.
    Option* add_option(const std::string& names, std::string& value, const std::string& about);
    Option* add_option(const std::string& names, std::int64_t& value, const std::string& about);
    Option* add_option(const std::string& names, std::vector<std::string>& values,
                       const std::string& about);
    Option* add_option(const std::string& names, std::vector<std::int64_t>& values,
                       const std::string& about);
    /// An option handled by a function of its text.
    Option* add_option_function(const std::string& names,
                                std::function<void(const std::string&)> taken,
                                const std::string& about);
    Option* add_flag(const std::string& names, bool& given, const std::string& about);

    /// Run when the command was given, once all values are read.
    void callback(std::function<void()> given);
    /// Text below the options in the help.
    void footer(const std::string& text);
    void footer(std::function<std::string()> text);
    /// One of its subcommands must be named.
    void require_subcommand();

    CommandPage page() const;

private:
    CLI::App* app_;
    std::deque<Command> commands_; // places that stay, for those who hold a pointer
    std::deque<Option> options_;
};

} // namespace barrow::cli
