#include "cli/command.hpp"

#include <CLI/CLI.hpp>

#include <utility>

namespace barrow::cli {
namespace {

/// The words of a check such as "{quick,normal,thorough}"; none when it is of another kind.
std::vector<std::string> words_of(const std::string& type) {
    std::vector<std::string> words;
    const auto open = type.find('{');
    const auto close = type.find('}', open + 1);
    if (open == std::string::npos || close == std::string::npos) return words;
    std::string word;
    for (std::size_t at = open + 1; at <= close; ++at) {
        if (type[at] != ',' && at != close) {
            word += type[at];
            continue;
        }
        words.push_back(word);
        word.clear();
    }
    return words;
}

OptionPage page_of(const CLI::Option& option) {
    OptionPage page;
    page.about = option.get_description();
    page.words = words_of(option.get_type_name());
    if (option.get_positional()) {
        page.argument = option.get_name(true);
        return page;
    }
    for (const std::string& name : option.get_snames()) page.names.push_back("-" + name);
    for (const std::string& name : option.get_lnames()) page.names.push_back("--" + name);
    if (option.get_items_expected_max() == 0) return page; // a flag
    const std::string& type = option.get_type_name();
    page.value = type.substr(0, type.find_first_of(":{ "));
    if (page.value.empty()) page.value = "TEXT";
    return page;
}

CommandPage page_of(const CLI::App& app) {
    CommandPage page{app.get_name(), app.get_description(), app.get_footer(), {}, {}};
    for (const CLI::Option* option : app.get_options()) page.options.push_back(page_of(*option));
    for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; }))
        page.commands.push_back(page_of(*command));
    return page;
}

} // namespace

Option* Option::required() {
    option_->required();
    return this;
}

Option* Option::type_name(const std::string& name) {
    option_->type_name(name);
    return this;
}

Option* Option::repeats() {
    option_->expected(1)->take_all();
    return this;
}

Option* Option::needs(const Option* other) {
    option_->needs(other->option_);
    return this;
}

Option* Option::range(std::int64_t least, std::int64_t most) {
    option_->check(CLI::Range(least, most));
    return this;
}

Option* Option::one_of(const std::vector<std::string>& words) {
    option_->check(CLI::IsMember(words));
    return this;
}

Command* Command::add_subcommand(const std::string& name, const std::string& about) {
    return &commands_.emplace_back(*app_->add_subcommand(name, about));
}

Option* Command::add_option(const std::string& names, std::string& value,
                            const std::string& about) {
    return &options_.emplace_back(app_->add_option(names, value, about));
}

Option* Command::add_option(const std::string& names, std::int64_t& value,
                            const std::string& about) {
    return &options_.emplace_back(app_->add_option(names, value, about));
}

Option* Command::add_option(const std::string& names, std::vector<std::string>& values,
                            const std::string& about) {
    return &options_.emplace_back(app_->add_option(names, values, about));
}

Option* Command::add_option(const std::string& names, std::vector<std::int64_t>& values,
                            const std::string& about) {
    return &options_.emplace_back(app_->add_option(names, values, about));
}

Option* Command::add_option_function(const std::string& names,
                                     std::function<void(const std::string&)> taken,
                                     const std::string& about) {
    return &options_.emplace_back(
        app_->add_option_function<std::string>(names, std::move(taken), about));
}

Option* Command::add_flag(const std::string& names, bool& given, const std::string& about) {
    return &options_.emplace_back(app_->add_flag(names, given, about));
}

void Command::callback(std::function<void()> given) {
    app_->callback(std::move(given));
}

void Command::footer(const std::string& text) {
    app_->footer(text);
}

void Command::footer(std::function<std::string()> text) {
    app_->footer(std::move(text));
}

void Command::require_subcommand() {
    app_->require_subcommand(1);
}

CommandPage Command::page() const {
    return page_of(*app_);
}

} // namespace barrow::cli
