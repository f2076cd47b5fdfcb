#include "cli/commands.hpp"
#include "cli/pages.hpp"

#include <memory>

namespace barrow::cli {

void add_page_commands(Command& app, Shell& shell) {
    auto* page = app.add_subcommand("manual", "Print the manual as a man page");
    page->callback([&app, &shell] {
        shell.action = [&app, &shell] { shell.say(manual(app.page(), BARROW_VERSION)); };
    });
    auto* words = app.add_subcommand("completions", "Print completions for a shell");
    const auto wanted = std::make_shared<std::string>();
    words->add_option("shell", *wanted, "The shell they are for")
        ->one_of({"bash", "zsh", "fish"})
        ->required();
    words->callback([&app, &shell, wanted] {
        shell.action = [&app, &shell, wanted] { shell.say(completions(app.page(), *wanted)); };
    });
}

} // namespace barrow::cli
