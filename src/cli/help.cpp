#include "cli/help.hpp"

#include "base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

namespace barrow::cli {
namespace {

constexpr std::size_t width = 80;
constexpr std::size_t name_width = 24;

/// One line of a list: a name, and a text that is wrapped beside it.
std::string entry(const std::string& name, const std::string& text) {
    const std::string margin(name_width, ' ');
    std::string line = "  " + name;
    std::string lines;
    if (line.size() + 2 > name_width) {
        lines = line + "\n";
        line = margin;
    } else {
        line.resize(name_width, ' ');
    }
    std::istringstream words(text);
    bool first = true;
    for (std::string word; words >> word; first = false) {
        if (!first && base::display_width(line) + 1 + base::display_width(word) > width) {
            lines += line + "\n";
            line = margin;
            first = true;
        }
        line += (first ? "" : " ") + word;
    }
    return lines + line + "\n";
}

std::string usage_line(const Command& command) {
    const std::string path = command.path();
    std::string line = "Usage: barrow";
    if (!path.empty()) line += " " + path;
    line += " [OPTIONS]";
    for (const Option& option : command.options)
        if (!option.argument.empty())
            line += option.must_be_given ? " " + written(option) : " [" + written(option) + "]";
    if (!command.commands.empty()) line += " COMMAND ...";
    return line + "\n";
}

/// A heading and the options under it; nothing when there are none.
std::string list_of(const char* heading, const Command& command, bool arguments) {
    std::string list;
    for (const Option& option : command.options)
        if (option.names.empty() == arguments) list += entry(written(option), explained(option));
    if (!arguments) list += entry("-h, --help", "Show this help");
    return list.empty() ? "" : fmt::format("\n{}:\n{}", heading, list);
}

} // namespace

std::string written(const Option& option) {
    if (option.names.empty()) {
        if (option.value.find('=') != std::string::npos)
            return option.value + (option.takes_many() ? "..." : "");
        return base::raised(option.argument) + (option.takes_many() ? "..." : "");
    }
    std::string text = fmt::format("{}", fmt::join(option.names, ", "));
    if (!option.is_flag()) text += " " + option.value;
    return text;
}

std::string explained(const Option& option) {
    std::vector<std::string> more;
    if (option.must_be_given && !option.names.empty()) more.emplace_back("required");
    if (!option.words.empty()) more.push_back(fmt::format("{}", fmt::join(option.words, ", ")));
    if (option.span)
        more.push_back(fmt::format("{} to {}", option.span->first, option.span->second));
    if (option.once_each_time) more.emplace_back("may be repeated");
    if (option.only_with != nullptr) more.push_back("only with " + option.only_with->main_name());
    if (more.empty()) return option.about;
    return fmt::format("{} ({})", option.about, fmt::join(more, "; "));
}

std::string help_text(const Command& command) {
    std::string text = command.about + "\n\n" + usage_line(command);
    std::string commands;
    for (const Command& below : command.commands)
        if (!below.hidden) commands += entry(below.name, below.about);
    if (!commands.empty()) text += "\nCommands:\n" + commands;
    text += list_of("Arguments", command, true) + list_of("Options", command, false);
    if (command.above != nullptr)
        text += "\n--shop FILE and --json may be given with every command (see: barrow --help).\n";
    if (command.notes) {
        const std::string notes = command.notes();
        text += "\n" + notes + (notes.empty() || notes.back() == '\n' ? "" : "\n");
    }
    if (!command.examples.empty()) text += "\nFor example:\n";
    for (const std::string& line : command.examples) text += "  " + line + "\n";
    return text;
}

} // namespace barrow::cli
