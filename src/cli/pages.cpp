#include "cli/pages.hpp"

#include "cli/help.hpp"

#include <fmt/format.h>

namespace barrow::cli {
namespace {

/// The words that lead to a command: " fair take"; empty for the program itself.
std::string spot_of(const Command& command) {
    const std::string path = command.path();
    return path.empty() ? path : " " + path;
}

std::string replaced(std::string text, const std::string& what, const std::string& by) {
    for (std::size_t at = text.find(what); at != std::string::npos;
         at = text.find(what, at + by.size()))
        text.replace(at, what.size(), by);
    return text;
}

/// Text in which nothing is taken for a request of roff.
std::string roff(std::string text) {
    text = replaced(replaced(std::move(text), "\\", "\\e"), "-", "\\-");
    text = replaced(std::move(text), "\n.", "\n\\&.");
    text = replaced(std::move(text), "\n'", "\n\\&'");
    if (!text.empty() && (text.front() == '.' || text.front() == '\'')) text.insert(0, "\\&");
    return text;
}

/// Lines that keep their breaks.
std::string roff_lines(const std::string& text) {
    return ".nf\n" + roff(text) + "\n.fi\n";
}

std::string roff_option(const Option& option) {
    return fmt::format(".TP\n.B {}\n{}\n", roff(written(option)), roff(explained(option)));
}

std::string in_single_quotes(const std::string& text) {
    return "'" + replaced(text, "'", "'\\''") + "'";
}

/// All words that may follow a command: those below it, its options and those of the program.
std::string next_words(const Command& command, const Command& program) {
    std::vector<std::string> words;
    for (const Command& below : command.commands)
        if (!below.hidden) words.push_back(below.name);
    const auto add_options = [&](const Command& of) {
        for (const Option& option : of.options) {
            words.insert(words.end(), option.names.begin(), option.names.end());
            if (!option.argument.empty())
                words.insert(words.end(), option.words.begin(), option.words.end());
        }
    };
    add_options(command);
    if (&command != &program) add_options(program);
    words.emplace_back("--help");
    return fmt::format("{}", fmt::join(words, " "));
}

/// What bash and zsh share: `spot` becomes the command that the words given so far lead to.
std::string find_spot(const Command& program, const std::string& words_so_far) {
    std::string paths;
    for_each_command(program, [&](const Command& command) {
        const std::string spot = spot_of(command);
        if (!spot.empty()) paths += (paths.empty() ? "" : "|") + in_single_quotes(spot);
    });
    return fmt::format("  local spot= word\n"
                       "  for word in {}; do\n"
                       "    case \"$spot $word\" in {}) spot=\"$spot $word\" ;; esac\n"
                       "  done\n",
                       words_so_far, paths);
}

std::string spot_cases(const Command& program) {
    std::string cases = "  case \"$spot\" in\n";
    for_each_command(program, [&](const Command& command) {
        cases += fmt::format("    {}) next={} ;;\n", in_single_quotes(spot_of(command)),
                             in_single_quotes(next_words(command, program)));
    });
    return cases + "  esac\n";
}

std::string bash(const Command& program) {
    return fmt::format("# Completions of {0} for bash.\n"
                       "_{0}() {{\n"
                       "{1}"
                       "  local next=\n"
                       "{2}"
                       "  mapfile -t COMPREPLY < <(compgen -W \"$next\" -- \"$2\")\n"
                       "}}\n"
                       "complete -o default -F _{0} {0}\n",
                       program.name, find_spot(program, "\"${COMP_WORDS[@]:1:COMP_CWORD-1}\""),
                       spot_cases(program));
}

std::string zsh(const Command& program) {
    return fmt::format("#compdef {0}\n"
                       "_{0}() {{\n"
                       "{1}"
                       "  local next=\n"
                       "{2}"
                       "  compadd -- ${{=next}}\n"
                       "  _files\n"
                       "}}\n"
                       "_{0} \"$@\"\n",
                       program.name, find_spot(program, "\"${words[@]:1:CURRENT-2}\""),
                       spot_cases(program));
}

/// fish's condition for "this command was named, and nothing below it yet".
std::string fish_condition(const Command& command) {
    std::string here;
    for (const Command* at = &command; at->above != nullptr; at = at->above)
        here.insert(0, "__fish_seen_subcommand_from " + at->name + (here.empty() ? "" : "; and "));
    return here;
}

std::string fish_option(const Command& program, const std::string& here, const Option& option) {
    std::string line = "complete -c " + program.name;
    if (!here.empty()) line += " -n " + in_single_quotes(here);
    for (const std::string& name : option.names)
        line += name[1] == '-' ? " -l " + name.substr(2) : " -s " + name.substr(1);
    if (!option.is_flag()) line += " -r";
    if (!option.words.empty())
        line += " -f -a " + in_single_quotes(fmt::format("{}", fmt::join(option.words, " ")));
    return line + " -d " + in_single_quotes(option.about) + "\n";
}

std::string fish(const Command& program) {
    std::string text = fmt::format("# Completions of {0} for fish.\n"
                                   "complete -c {0} -s h -l help -d 'Show this help'\n",
                                   program.name);
    for_each_command(program, [&](const Command& command) {
        const std::string here = fish_condition(command);
        std::string others;
        for (const Command& below : command.commands) others += " " + below.name;
        const std::string none_yet = here.empty()
                                         ? "__fish_use_subcommand"
                                         : here + "; and not __fish_seen_subcommand_from" + others;
        for (const Command& below : command.commands)
            if (!below.hidden)
                text += fmt::format("complete -c {} -f -n {} -a {} -d {}\n", program.name,
                                    in_single_quotes(none_yet), below.name,
                                    in_single_quotes(below.about));
        for (const Option& option : command.options)
            if (!option.names.empty()) {
                text += fish_option(program, here, option);
            } else if (!option.words.empty()) {
                text += fmt::format(
                    "complete -c {} -f -n {} -a {}\n", program.name, in_single_quotes(here),
                    in_single_quotes(fmt::format("{}", fmt::join(option.words, " "))));
            }
    });
    return text;
}

} // namespace

std::string manual(const Command& program, const std::string& version) {
    std::string text = fmt::format(".TH BARROW 1 \"\" \"{0} {1}\"\n.SH NAME\n{0} \\- {2}\n"
                                   ".SH SYNOPSIS\n.B {0}\n[options] command ...\n",
                                   program.name, version, roff(program.about));
    text += ".SH EXAMPLES\n" + roff_lines(fmt::format("{}", fmt::join(program.examples, "\n")));
    text += ".SH OPTIONS\n";
    for (const Option& option : program.options) text += roff_option(option);
    text += ".SH COMMANDS\n";
    for_each_command(program, [&](const Command& command) {
        if (command.above == nullptr || !command.commands.empty()) return; // groups: see below
        text += fmt::format(".SS {}\n{}.\n", roff(program.name + spot_of(command)),
                            roff(command.about));
        for (const Option& option : command.options) text += roff_option(option);
        if (command.notes) text += ".PP\n" + roff_lines(command.notes());
        if (!command.examples.empty())
            text += ".PP\nFor example:\n"
                    + roff_lines(fmt::format("{}", fmt::join(command.examples, "\n")));
    });
    return text + ".SH NOTES\n" + roff_lines(program.notes());
}

std::string completions(const Command& program, const std::string& shell) {
    if (shell == "bash") return bash(program);
    if (shell == "zsh") return zsh(program);
    return fish(program);
}

} // namespace barrow::cli
