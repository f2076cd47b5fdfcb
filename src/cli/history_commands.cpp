#include "cli/commands.hpp"

#include "cli/tables.hpp"
#include "workshop/books/history.hpp"

#include <array>
#include <memory>

namespace barrow::cli {
namespace {

using workshop::Subject;

struct About {
    Subject of;
    const char* code; ///< what names one
};

constexpr std::array<About, 5> subjects = {
    {{Subject::material, "Code of the material"},
     {Subject::lot, "Number of the lot (see: barrow lots CODE)"},
     {Subject::offcut, "The offcut's label"},
     {Subject::batch, "Number of the batch"},
     {Subject::journal, "Serial of the journal"}}};

} // namespace

void add_history_commands(Command& app, Shell& shell) {
    auto* group =
        app.add_subcommand("history", "Everything that happened to one thing, entry by entry");
    for (const About& about : subjects) {
        const std::string name(workshop::name_of(about.of));
        auto* command = group->add_subcommand(
            name, (name == "offcut" ? "History of an " : "History of a ") + name);
        struct Given {
            std::string code;
            TableOptions options;
        };
        const auto given = std::make_shared<Given>();
        command->add_option("code", given->code, about.code)->required();
        given->options.add_to(*command);
        command->callback([&shell, given, of = about.of] {
            shell.action = [&shell, given, of] {
                store::Database database = shell.open();
                show_table(shell, given->options, workshop::history(database, of, given->code));
            };
        });
    }
}

} // namespace barrow::cli
