#include "cli/commands.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "cli/help.hpp"
#include "cli/pages.hpp"
#include "cli/topics.hpp"

#include <fmt/format.h>

#include <memory>

namespace barrow::cli {
namespace {

std::string list_of_topics() {
    std::string text = "Topics:\n";
    for (const Topic& topic : topics())
        text += fmt::format("  {:<22}{}\n", topic.name, topic.about);
    return text;
}

/// The page of a topic, or the help of the command with that path.
std::string page_for(const Command& program, const std::vector<std::string>& words) {
    if (words.empty()) return help_text(program) + "\n" + list_of_topics();
    const std::string name = fmt::format("{}", fmt::join(words, " "));
    const Command* command = &program;
    for (const std::string& word : words)
        if (command != nullptr) command = command->find(word);
    if (command != nullptr) return help_text(*command);
    if (const Topic* topic = find_topic(name)) return topic->text;
    std::vector<std::string> known;
    for (const Topic& topic : topics()) known.push_back(topic.name);
    for_each_command(program, [&](const Command& one) {
        if (one.above != nullptr) known.push_back(one.path());
    });
    throw base::Error(base::Kind::usage, fmt::format("there is no help about \"{}\"", name),
                      base::nearest(name, known).empty() ? "see: barrow help"
                                                         : base::did_you_mean(name, known));
}

} // namespace

void add_help_commands(Command& app, Shell& shell) {
    auto* help =
        app.add_subcommand("help", "Help about a command, or about how things are counted");
    const auto about = std::make_shared<std::vector<std::string>>();
    help->add_option("topic", *about, "A topic, or a command");
    help->footer(list_of_topics);
    help->example("barrow help cost-order");
    help->callback([&app, &shell, about] { shell.answer(page_for(app, *about)); });

    auto* page = app.add_subcommand("manual", "Print the manual as a man page");
    page->example("barrow manual > barrow.1");
    page->callback([&app, &shell] { shell.answer(manual(app, BARROW_VERSION)); });

    auto* words = app.add_subcommand("completions", "Print completions for a shell");
    const auto wanted = std::make_shared<std::string>();
    words->add_option("shell", *wanted, "The shell they are for")
        ->one_of({"bash", "zsh", "fish"})
        ->required();
    words->example("barrow completions bash > barrow.bash");
    words->callback([&app, &shell, wanted] { shell.answer(completions(app, *wanted)); });
}

} // namespace barrow::cli
