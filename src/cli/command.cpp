#include "cli/command.hpp"

namespace barrow::cli {
namespace {

std::vector<std::string> split(const std::string& names) {
    std::vector<std::string> parts(1);
    for (const char c : names) {
        if (c == ',')
            parts.emplace_back();
        else
            parts.back() += c;
    }
    return parts;
}

const char* usual_value(const Option::Target& target) {
    if (std::holds_alternative<bool*>(target)) return "";
    const bool number = std::holds_alternative<std::int64_t*>(target)
                        || std::holds_alternative<std::optional<std::int64_t>*>(target);
    return number ? "NUMBER" : "TEXT";
}

} // namespace

Option* Option::required() {
    must_be_given = true;
    return this;
}

Option* Option::type_name(const std::string& name) {
    value = name;
    return this;
}

Option* Option::repeats() {
    once_each_time = true;
    return this;
}

Option* Option::needs(const Option* other) {
    only_with = other;
    return this;
}

Option* Option::range(std::int64_t least, std::int64_t most) {
    span = {least, most};
    return this;
}

Option* Option::one_of(std::vector<std::string> allowed) {
    words = std::move(allowed);
    return this;
}

Command* Command::add_subcommand(const std::string& below, const std::string& sentence) {
    Command& command = commands.emplace_back();
    command.name = below;
    command.about = sentence;
    command.above = this;
    return &command;
}

Option* Command::add_option(const std::string& written, Option::Target target,
                            const std::string& sentence) {
    Option& option = options.emplace_back();
    if (written.front() == '-')
        option.names = split(written);
    else
        option.argument = written;
    option.about = sentence;
    option.value = usual_value(target);
    option.target = std::move(target);
    return &option;
}

std::string Command::path() const {
    std::string words;
    for (const Command* at = this; at->above != nullptr; at = at->above)
        words.insert(0, at->name + (words.empty() ? "" : " "));
    return words;
}

const Command* Command::find(const std::string& wanted) const {
    for (const Command& command : commands)
        if (command.name == wanted) return &command;
    return nullptr;
}

void for_each_command(const Command& top, const std::function<void(const Command&)>& visit) {
    visit(top);
    for (const Command& command : top.commands)
        if (!command.hidden) for_each_command(command, visit);
}

} // namespace barrow::cli
