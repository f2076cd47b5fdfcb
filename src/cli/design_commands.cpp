#include "cli/commands.hpp"

#include "base/error.hpp"
#include "cli/options.hpp"
#include "print/json_documents.hpp"
#include "print/screens.hpp"
#include "workshop/designs.hpp"
#include "workshop/settings.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <filesystem>
#include <memory>

namespace barrow::cli {
namespace {

void add_bring(CLI::App& group, Shell& shell) {
    auto* command = group.add_subcommand("bring", "Bring designs in from their files");
    struct Given {
        std::vector<std::string> files;
        bool dry_run = false;
    };
    const auto given = std::make_shared<Given>();
    command->add_option("files", given->files, "Design files (TOML)")->required();
    command->add_flag("-n,--dry-run", given->dry_run, "Only say what would be done");
    command->callback([&shell, given] {
        shell.action = [&shell, given] {
            store::Database database = shell.open();
            workshop::Context context = shell.context(database, given->dry_run);
            std::vector<workshop::DesignText> texts;
            for (const std::string& file : given->files)
                texts.push_back(
                    {shell.read_file(file), std::filesystem::path(file).filename().string()});
            for (const workshop::Brought& brought : workshop::bring_designs(context, texts)) {
                const char* what = brought.is_new    ? "new"
                                   : brought.changed ? "a newer text"
                                                     : "as it was";
                shell.say(
                    fmt::format("{}: {} ({}).\n", brought.design.code, brought.design.name, what));
                for (const std::string& material : brought.missing_materials)
                    shell.remark(fmt::format("  The shop has no material {} yet.\n", material));
            }
        };
    });
}

void add_show(CLI::App& group, Shell& shell) {
    auto* command = group.add_subcommand("show", "A design with every number explained");
    struct Given {
        std::string design;
        std::vector<std::string> set;
    };
    const auto given = std::make_shared<Given>();
    command->add_option("design", given->design, "Code of the design")->required();
    command->add_option("--set", given->set, "Change a parameter: --set envelopes=20")
        ->type_name("NAME=VALUE")
        ->expected(1)
        ->take_all();
    command->callback([&shell, given] {
        shell.action = [&shell, given] {
            store::Database database = shell.open();
            const auto worked = workshop::show_design(database, given->design,
                                                      {read_changes(given->set, "--set"), {}});
            const auto settings = workshop::read_settings(database);
            shell.show([&] { return print::screen(worked, settings.unit); },
                       [&] { return print::document(worked); });
        };
    });
}

} // namespace

void add_design_commands(CLI::App& app, Shell& shell) {
    auto* group = app.add_subcommand("design", "The journals you can make");
    auto* list = group->add_subcommand("list", "All designs");
    list->callback([&shell] {
        shell.action = [&shell] {
            store::Database database = shell.open();
            const auto designs = workshop::list_designs(database);
            shell.show([&] { return print::screen(designs); },
                       [&] { return print::document(designs); });
        };
    });
    add_bring(*group, shell);
    add_show(*group, shell);
}

} // namespace barrow::cli
