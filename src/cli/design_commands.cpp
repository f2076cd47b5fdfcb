#include "cli/commands.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "cli/files.hpp"
#include "cli/options.hpp"
#include "print/making/design_drawing.hpp"
#include "print/making/designs.hpp"
#include "workshop/making/designs.hpp"
#include "workshop/making/new_design.hpp"
#include "workshop/shared/settings.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <istream>
#include <memory>
#include <ostream>

namespace barrow::cli {
namespace {

void add_bring(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("bring", "Read designs into the shop from their files");
    struct Given {
        std::vector<std::string> files;
    };
    const auto given = std::make_shared<Given>();
    command->add_option("files", given->files, "Design files (TOML)")->required();
    add_dry_run(*command, shell);
    command->callback([&shell, given] {
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
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
            if (!brought.variants.empty())
                shell.say(fmt::format("  Variants: {}\n", fmt::join(brought.variants, ", ")));
            for (const std::string& material : brought.missing_materials)
                shell.remark(fmt::format("  The shop has no material {} yet.\n", material));
            for (const std::string& warning : brought.warnings)
                shell.remark(fmt::format("  Note: {}.\n", warning));
        }
    });
}

/// Options of the commands that show a design: which, what is changed, where to draw it.
struct ShowGiven {
    std::string design;
    std::string variant;
    std::vector<std::string> set;
    std::vector<std::string> use;
    std::string svg;

    void add_to(Command& command) {
        command.add_option("--set", set, "Change a parameter: --set envelopes=20")
            ->type_name("NAME=VALUE")
            ->repeats();
        command.add_option("--use", use, "Take another material: --use outside=SM-TIDE")
            ->type_name("SLOT=CODE")
            ->repeats();
        command.add_option("--svg", svg, "Draw the cover, lying flat, into this file")
            ->type_name("FILE");
    }
    design::Changes changes() const {
        return {read_changes(set, "--set"), read_changes(use, "--use")};
    }
};

void show(const Shell& shell, const ShowGiven& given, const design::Worked& worked,
          base::Unit unit) {
    shell.show([&] { return print::screen(worked, unit); },
               [&] { return print::document(worked); });
    if (given.svg.empty()) return;
    if (!worked.cover)
        throw base::refused(fmt::format("{} has no cover to draw", worked.name),
                            "a design with a cover has the table [cover]");
    write_file(given.svg, print::cover_drawing(worked, unit));
}

void add_design_show(Command& group, Shell& shell) {
    auto* command =
        group.add_subcommand("show", "A design of the shop with every number explained");
    const auto given = std::make_shared<ShowGiven>();
    command->add_option("design", given->design, "Code of the design, or design.variant")
        ->required();
    given->add_to(*command);
    command->callback([&shell, given] {
        store::Database database = shell.open();
        const auto worked = workshop::show_design(database, given->design, given->changes());
        show(shell, *given, worked, workshop::read_settings(database).unit);
    });
}

/// Works a file out with the shop's knowledge of materials where there is a shop, else without.
void check_file(const Shell& shell, const ShowGiven& given) {
    const workshop::DesignText text{shell.read_file(given.design),
                                    std::filesystem::path(given.design).filename().string()};
    std::error_code not_there;
    if (std::filesystem::status(shell.shop_path(), not_there).type()
        == std::filesystem::file_type::not_found) {
        show(shell, given, workshop::check_text(nullptr, text, given.variant, given.changes()),
             base::Unit::mm);
        return;
    }
    store::Database database = shell.open();
    const auto worked = workshop::check_text(&database, text, given.variant, given.changes());
    show(shell, given, worked, workshop::read_settings(database).unit);
}

void add_design_check(Command& group, Shell& shell) {
    auto* command = group.add_subcommand(
        "check", "Check a design file and explain every number of it; needs no shop");
    const auto given = std::make_shared<ShowGiven>();
    command->add_option("file", given->design, "The file; - for standard input")->required();
    command->add_option("--variant", given->variant, "Which of its variants")->type_name("NAME");
    given->add_to(*command);
    command->callback([&shell, given] { check_file(shell, *given); });
}

struct NewGiven {
    std::string base;
    std::string code;
    std::string name;
    std::string file;
    std::vector<std::string> set;
    std::vector<std::string> use;
};

/// The materials that fit a slot, one a line, with numbers to answer with.
std::string fitting_text(const workshop::OpenSlot& slot) {
    std::string text = fmt::format("{}{}{}: one journal needs {}\n", slot.name,
                                   slot.about.empty() ? "" : ", ", slot.about, slot.need);
    for (std::size_t i = 0; i < slot.fitting.size(); ++i)
        text += fmt::format("  {}  {}  {}\n", i + 1, slot.fitting[i].code, slot.fitting[i].name);
    if (slot.fitting.empty()) text += "  nothing in the shop fits; book some: barrow buy --help\n";
    return text;
}

/// Asks a person which material fills each slot that is open. An empty answer leaves it open.
void ask_for_materials(const Shell& shell, const std::vector<workshop::OpenSlot>& open,
                       workshop::NewDesign& wanted) {
    World& world = shell.world();
    for (const workshop::OpenSlot& slot : open) {
        world.out << fitting_text(slot);
        while (!slot.fitting.empty()) {
            world.out << "Number or code: " << std::flush;
            std::string answer;
            if (!std::getline(world.in, answer) || base::trimmed(answer).empty()) return;
            const std::string plain = base::lowered(base::trimmed(answer));
            std::string found;
            for (std::size_t i = 0; i < slot.fitting.size(); ++i)
                if (plain == std::to_string(i + 1) || plain == base::lowered(slot.fitting[i].code))
                    found = slot.fitting[i].code;
            if (!found.empty()) {
                wanted.materials[slot.name] = found;
                break;
            }
            world.err << fmt::format("\"{}\" is not one of them.\n", base::trimmed(answer));
        }
    }
}

/// Refuses to begin a design while something it is made of is not named, with the whole command
/// that names the first that fits of each.
void require_filled(const NewGiven& given, const std::vector<workshop::OpenSlot>& open) {
    if (open.empty()) return;
    std::string text = "it is not said what these are made of";
    std::string more;
    bool all_fit = true;
    for (const workshop::OpenSlot& slot : open) {
        text += "\n  " + fitting_text(slot);
        text.pop_back();
        all_fit = all_fit && !slot.fitting.empty();
        if (!slot.fitting.empty())
            more += fmt::format(" --use {}={}", slot.name, slot.fitting.front().code);
    }
    if (!all_fit) throw base::refused(text, "book what is missing with barrow buy, then try again");
    std::string command = fmt::format("barrow design new {} --code {} --name \"{}\"", given.base,
                                      given.code, given.name);
    for (const std::string& one : given.set)
        command += one.find(' ') == std::string::npos ? " --set " + one
                                                      : fmt::format(" --set \"{}\"", one);
    for (const std::string& one : given.use) command += " --use " + one;
    throw base::refused(text, "for example: " + command + more);
}

/// Into the shop and into its file, both or neither.
void keep_new(Shell& shell, store::Database& database, const workshop::NewDesign& wanted,
              const std::string& file) {
    const std::string text = workshop::text_of(wanted);
    workshop::Context context = shell.context(database);
    const std::string name = std::filesystem::path(file).filename().string();
    workshop::check_text(&database, {text, name}, {}, {});
    write_file(file, text);
    workshop::Brought brought;
    try {
        brought = workshop::bring_designs(context, {{text, name}}).front();
    } catch (...) {
        std::filesystem::remove(file);
        throw;
    }
    shell.say(
        fmt::format("{}: {} is in the shop, and written to {}.\n", wanted.code, wanted.name, file));
    const auto worked = workshop::show_design(database, wanted.code, {});
    for (const std::string& line : workshop::bases_explained(worked)) shell.say("  " + line + "\n");
    for (const std::string& warning : brought.warnings)
        shell.remark(fmt::format("  Note: {}.\n", warning));
    shell.say(fmt::format("Next: barrow cost {} --make 4\n", wanted.code));
}

void make_new(Shell& shell, const NewGiven& given) {
    workshop::NewDesign wanted{given.base, given.code, given.name, read_changes(given.set, "--set"),
                               read_changes(given.use, "--use")};
    const std::string text = workshop::text_of(wanted);
    const std::string file = given.file.empty() ? given.code + ".toml" : given.file;
    std::error_code not_there;
    if (std::filesystem::exists(file, not_there))
        throw base::refused(fmt::format("{} is there already", file),
                            "name another file: --file FILE");
    const bool asks = shell.world().terminal && !shell.json
                      && std::filesystem::exists(shell.shop_path(), not_there);
    if (!given.use.empty() || asks) {
        store::Database database = shell.open();
        auto open = workshop::open_slots(database, wanted);
        if (asks && !open.empty()) {
            ask_for_materials(shell, open, wanted);
            open = workshop::open_slots(database, wanted);
        }
        require_filled(given, open);
        keep_new(shell, database, wanted, file);
        return;
    }
    write_file(file, text);
    shell.say(
        fmt::format("{} is written. Put the codes of your materials under [materials], then:\n"
                    "  barrow design check {}\n  barrow design bring {}\n"
                    "To have that done for you, name a material of the shop with --use SLOT=CODE: "
                    "what is still missing is then listed with what fits.\n",
                    file, file, file));
}

/// The bases with what may be set in each, for the help.
std::string bases_text() {
    std::string text = "Bases, and what may be set in each:\n";
    for (const design::ReadyDesign& base : design::ready_bases()) {
        text += fmt::format("  {}: {}\n   ", base.name, base.about);
        for (const auto& parameter : workshop::parameters_of(base))
            text += fmt::format(" {}={}", parameter.name, parameter.usual);
        text += "\n    made of:";
        for (const std::string& slot : workshop::slots_of(base)) text += " " + slot;
        text += "\n";
    }
    return text;
}

void add_new(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("new", "Begin a design file from a ready base");
    const auto given = std::make_shared<NewGiven>();
    std::vector<std::string> names;
    for (const design::ReadyDesign& base : design::ready_bases()) names.emplace_back(base.name);
    command->add_option("base", given->base, "What it is built like")->required()->one_of(names);
    command->add_option("--code", given->code, "Code of the new design")->required();
    command->add_option("--name", given->name, "Its name in full")->required();
    command->add_option("--file", given->file, "Where to write it; CODE.toml if left out");
    command->add_option("--set", given->set, "Its usual measures: --set envelope_wide=11cm")
        ->type_name("NAME=VALUE")
        ->repeats();
    command
        ->add_option("--use", given->use,
                     "What it is made of: --use board=BRD-A3; then it is brought in as well")
        ->type_name("SLOT=CODE")
        ->repeats();
    command->footer(bases_text);
    command->callback([&shell, given] { make_new(shell, *given); });
}

struct CalculatorGiven {
    std::vector<std::string> values;
    std::string unit = "mm";
    std::string svg;
};

/// What may be given, for the help. Read out of the calculator only when it is asked for.
std::string values_text(const design::ReadyDesign& calculator) {
    std::string text = "What may be given, and what it usually is:\n";
    for (const workshop::ReadyParameter& parameter : workshop::parameters_of(calculator))
        text += fmt::format("  {:<28} {}\n", fmt::format("{}={}", parameter.name, parameter.usual),
                            parameter.about);
    return text;
}

void calculate(const Shell& shell, const design::ReadyDesign& calculator,
               const CalculatorGiven& given) {
    const auto values = read_changes(given.values, "a value");
    const auto unit = base::read_unit(given.unit);
    if (!unit)
        throw base::Error(base::Kind::usage, "there is no unit " + given.unit, "mm, cm or in");
    const design::Worked worked = workshop::calculate(std::string(calculator.name), values);
    shell.show([&] { return print::calculation_screen(worked, *unit); },
               [&] { return print::calculation_document(worked); });
    if (given.svg.empty()) return;
    if (!worked.cover) throw base::refused("there is no cover to draw here");
    write_file(given.svg, print::cover_drawing(worked, *unit));
}

void add_calculator(Command& group, Shell& shell, const design::ReadyDesign& calculator) {
    auto* command =
        group.add_subcommand(std::string(calculator.name), std::string(calculator.about));
    const auto given = std::make_shared<CalculatorGiven>();
    command->add_option("values", given->values, "What you know: edge=16.5cm")
        ->type_name("NAME=VALUE");
    command->footer([&calculator] { return values_text(calculator); });
    command->add_option("--unit", given->unit, "Lengths are shown in mm, cm or in");
    command->add_option("--svg", given->svg, "Draw the cover into this file")->type_name("FILE");
    command->callback([&shell, given, &calculator] { calculate(shell, calculator, *given); });
}

} // namespace

void add_design_commands(Command& app, Shell& shell) {
    auto* group = app.add_subcommand("design", "The journals you can make");
    auto* list = group->add_subcommand("list", "All designs");
    list->callback([&shell] {
        store::Database database = shell.open();
        const auto designs = workshop::list_designs(database);
        shell.show([&] { return print::screen(designs); },
                   [&] { return print::document(designs); });
    });
    add_bring(*group, shell);
    add_design_show(*group, shell);
    add_design_check(*group, shell);
    add_new(*group, shell);
}

void add_calculate_command(Command& app, Shell& shell) {
    auto* group = app.add_subcommand(
        "calculate", "Work out a cover, a binding, a thickness, a paper; needs no shop");
    for (const design::ReadyDesign& calculator : design::calculators())
        add_calculator(*group, shell, calculator);
}

} // namespace barrow::cli
