#include "cli/pages.hpp"

#include <fmt/format.h>

#include <functional>

namespace barrow::cli {
namespace {

/// Calls `visit` for a program and each command below it, with the words that lead there
/// (" fair take"; empty for the program itself).
void walk(const CommandPage& page, const std::string& path,
          const std::function<void(const CommandPage&, const std::string&)>& visit) {
    visit(page, path);
    for (const CommandPage& command : page.commands)
        walk(command, path + " " + command.name, visit);
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

std::string roff_option(const OptionPage& option) {
    std::string names = option.argument;
    for (const std::string& name : option.names) names += (names.empty() ? "" : ", ") + name;
    return fmt::format(".TP\n.B {}{}\n{}\n", roff(names),
                       option.value.empty() ? "" : " " + roff(option.value), roff(option.about));
}

std::string in_single_quotes(const std::string& text) {
    return "'" + replaced(text, "'", "'\\''") + "'";
}

/// All words that may follow a path: its commands, the names of its options, and --help.
std::string next_words(const CommandPage& page, const CommandPage& program) {
    std::string words;
    for (const CommandPage& command : page.commands) words += command.name + " ";
    const auto add_options = [&](const CommandPage& of) {
        for (const OptionPage& option : of.options) {
            for (const std::string& name : option.names)
                if (words.find(name + " ") == std::string::npos) words += name + " ";
            if (!option.argument.empty())
                for (const std::string& word : option.words) words += word + " ";
        }
    };
    add_options(page);
    if (&page != &program) add_options(program);
    words.pop_back();
    return words;
}

/// What bash and zsh share: `spot` becomes the command that the words given so far lead to.
std::string find_spot(const CommandPage& program, const std::string& words_so_far) {
    std::string paths;
    walk(program, "", [&](const CommandPage&, const std::string& path) {
        if (!path.empty()) paths += (paths.empty() ? "" : "|") + in_single_quotes(path);
    });
    return fmt::format("  local spot= word\n"
                       "  for word in {}; do\n"
                       "    case \"$spot $word\" in {}) spot=\"$spot $word\" ;; esac\n"
                       "  done\n",
                       words_so_far, paths);
}

std::string spot_cases(const CommandPage& program) {
    std::string cases = "  case \"$spot\" in\n";
    walk(program, "", [&](const CommandPage& page, const std::string& path) {
        cases += fmt::format("    {}) next={} ;;\n", in_single_quotes(path),
                             in_single_quotes(next_words(page, program)));
    });
    return cases + "  esac\n";
}

std::string bash(const CommandPage& program) {
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

std::string zsh(const CommandPage& program) {
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

std::string fish(const CommandPage& program) {
    std::string text = fmt::format("# Completions of {0} for fish.\n", program.name);
    walk(program, "", [&](const CommandPage& page, const std::string& path) {
        std::string here;
        for (std::size_t at = 0; at < path.size();) {
            const std::size_t end = std::min(path.find(' ', at + 1), path.size());
            here += (here.empty() ? "" : "; and ")
                    + ("__fish_seen_subcommand_from" + path.substr(at, end - at));
            at = end;
        }
        std::string others;
        for (const CommandPage& command : page.commands) others += " " + command.name;
        const std::string none_yet = here.empty()
                                         ? "__fish_use_subcommand"
                                         : here + "; and not __fish_seen_subcommand_from" + others;
        for (const CommandPage& command : page.commands)
            text += fmt::format("complete -c {} -f -n {} -a {} -d {}\n", program.name,
                                in_single_quotes(none_yet), command.name,
                                in_single_quotes(command.about));
        for (const OptionPage& option : page.options) {
            if (option.names.empty()) continue;
            text += "complete -c " + program.name;
            if (!here.empty()) text += " -n " + in_single_quotes(here);
            for (const std::string& name : option.names)
                text += name[1] == '-' ? " -l " + name.substr(2) : " -s " + name.substr(1);
            if (!option.value.empty()) text += " -r";
            if (!option.words.empty())
                text +=
                    " -f -a " + in_single_quotes(fmt::format("{}", fmt::join(option.words, " ")));
            text += " -d " + in_single_quotes(option.about) + "\n";
        }
    });
    return text;
}

} // namespace

std::string manual(const CommandPage& program, const std::string& version) {
    const std::size_t first_line = program.about.find('\n');
    const std::string sentence = program.about.substr(
        program.about.find(' ') + 1, first_line == std::string::npos
                                         ? std::string::npos
                                         : first_line - program.about.find(' ') - 1);
    std::string text =
        fmt::format(".TH BARROW 1 \"\" \"{} {}\"\n.SH NAME\n{} \\- {}\n"
                    ".SH SYNOPSIS\n.B {}\n[options] command ...\n",
                    program.name, version, program.name, roff(sentence), program.name);
    if (first_line != std::string::npos)
        text += ".SH EXAMPLES\n" + roff_lines(program.about.substr(first_line + 1));
    text += ".SH OPTIONS\n";
    for (const OptionPage& option : program.options) text += roff_option(option);
    text += ".SH COMMANDS\n";
    walk(program, "", [&](const CommandPage& page, const std::string& path) {
        if (path.empty() || !page.commands.empty()) return; // groups have their commands shown
        text += fmt::format(".SS {}\n{}.\n", roff(program.name + path), roff(page.about));
        for (const OptionPage& option : page.options) text += roff_option(option);
        if (!page.footer.empty()) text += ".PP\n" + roff_lines(page.footer);
    });
    return text + ".SH EXIT STATUS\n" + roff_lines(program.footer);
}

std::string completions(const CommandPage& program, const std::string& shell) {
    if (shell == "bash") return bash(program);
    if (shell == "zsh") return zsh(program);
    return fish(program);
}

} // namespace barrow::cli
