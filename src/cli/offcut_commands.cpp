#include "cli/commands.hpp"

#include "cli/files.hpp"
#include "cli/options.hpp"
#include "cli/views.hpp"
#include "print/making/plan_drawing.hpp"
#include "print/making/yields.hpp"
#include "print/stock/offcuts.hpp"
#include "workshop/making/yields.hpp"
#include "workshop/stock/leaving.hpp"
#include "workshop/stock/offcut_box.hpp"

#include <fmt/format.h>

#include <memory>

namespace barrow::cli {
namespace {

void add_offcut_change(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("change", "Change an offcut's place or its note");
    struct Given {
        std::string label, place, note;
    };
    const auto given = std::make_shared<Given>();
    command->add_option("label", given->label, "Its label")->required();
    command->add_option("--place", given->place, "Box or drawer; - empties it");
    command->add_option("--note", given->note, "A note; - empties it");
    add_dry_run(*command, shell);
    command->callback([&shell, given] {
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        const auto offcut =
            workshop::describe_offcut(context, given->label, given->place, given->note);
        shell.say(fmt::format("Offcut {}{}.\n", offcut.code,
                              offcut.place.empty() ? "" : " lies in " + offcut.place));
    });
}

void add_split(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("split", "Cut an offcut into smaller ones");
    struct Given {
        std::string label;
        std::vector<std::string> sizes;
    };
    const auto given = std::make_shared<Given>();
    command->add_option("label", given->label, "Its label")->required();
    command->add_option("--into", given->sizes, "A size it is cut into: --into 120mmx80mm")
        ->required()
        ->repeats();
    add_note(*command, shell, "Why");
    add_dry_run(*command, shell);
    command->callback([&shell, given] {
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        const auto made = workshop::split_offcut(context, given->label, given->sizes);
        shell.say(print::screen(made, workshop::read_settings(database)));
    });
}

void add_found(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("found", "Enter an offcut that is not in the book");
    struct Given {
        std::string material, size, place;
    };
    const auto given = std::make_shared<Given>();
    command->add_option("material", given->material, "Code of its material")->required();
    command->add_option("size", given->size, "Its size: 120mmx80mm, 40cm, 6 (loops)")->required();
    command->add_option("--place", given->place, "Box or drawer");
    add_note(*command, shell, "A note");
    add_dry_run(*command, shell);
    command->callback([&shell, given] {
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        const auto made = workshop::keep_found(context, given->material, given->size, given->place);
        shell.say(print::screen(made, workshop::read_settings(database)));
    });
}

/// LABEL.svg in the folder: the offcut as it would be cut.
void draw(const Shell& shell, const workshop::Yields& yields, const std::string& folder) {
    const layout::Plan* plan = yields.choice.plan();
    if (plan == nullptr) {
        shell.remark("There is nothing to draw.\n");
        return;
    }
    print::DrawingWords words;
    words.measure = print::drawn_measure(yields.material.form, yields.settings.unit);
    for (const std::size_t line : yields.choice.which)
        words.pieces.push_back(yields.lines[line].filler);
    const std::string& label = yields.offcut.offcut.code;
    words.title =
        fmt::format("{} {}: offcut {}", yields.material.code, yields.material.name, label);
    write_drawing(folder, "offcut",
                  {label + ".svg", print::drawing(yields.choice.job, *plan, words)});
    shell.remark(fmt::format("Drawn in {}/{}.svg.\n", folder, label));
}

void add_yields(Command& group, Shell& shell) {
    auto* command = group.add_subcommand(
        "yields", "What fillers one offcut gives, the choice worth most, and how to cut it");
    struct Given {
        std::string label, design, folder;
        std::string effort = "normal";
        std::int64_t at_most = 0;
    };
    const auto given = std::make_shared<Given>();
    command->add_option("label", given->label, "Its label")->required();
    command->add_option("--design", given->design, "Only fillers of this design")
        ->type_name("CODE");
    command->add_option("--at-most", given->at_most, "At most this many of each filler")
        ->range(1, 10'000);
    command->add_option("--effort", given->effort, "How hard to look for a better choice")
        ->one_of({"quick", "normal", "thorough"});
    command->add_option("--svg", given->folder, "Draw how it is cut into this folder")
        ->type_name("FOLDER");
    command->callback([&shell, given] {
        store::Database database = shell.open();
        workshop::HowToFill how;
        how.design = given->design;
        if (given->at_most > 0) how.at_most = given->at_most;
        how.effort = read_effort(given->effort);
        const auto yields = workshop::yields(database, given->label, how, shell.today());
        if (!given->folder.empty()) draw(shell, yields, given->folder);
        shell.show([&] { return print::screen(yields); }, [&] { return print::document(yields); });
    });
}

} // namespace

void add_offcut_commands(Command& app, Shell& shell) {
    auto* group = app.add_subcommand("offcut", "The offcut box");
    add_view(*group, shell, "list", "All offcuts, with label, size, value and age",
             [](store::Database& database, const base::Date& today) {
                 return workshop::offcuts(database, today);
             });
    add_view(*group, shell, "fits", "What can be made from the box, the best use first",
             [](store::Database& database, const base::Date& today) {
                 return workshop::what_fits(database, today);
             });
    add_yields(*group, shell);
    add_offcut_change(*group, shell);
    add_split(*group, shell);
    add_found(*group, shell);
}

} // namespace barrow::cli
