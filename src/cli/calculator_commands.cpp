#include "cli/commands.hpp"

#include "base/error.hpp"
#include "cli/options.hpp"
#include "print/making/design_drawing.hpp"
#include "print/making/designs.hpp"
#include "workshop/making/designs.hpp"

#include <fmt/format.h>

#include <memory>

namespace barrow::cli {
namespace {

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
    if (!given.svg.empty()) {
        if (!worked.cover) throw base::refused("there is no cover to draw here");
        Shell::write_file(given.svg, print::cover_drawing(worked, *unit));
    }
    shell.show([&] { return print::calculation_screen(worked, *unit); },
               [&] { return print::calculation_document(worked); });
}

void add_one(Command& group, Shell& shell, const design::ReadyDesign& calculator) {
    auto* command =
        group.add_subcommand(std::string(calculator.name), std::string(calculator.about));
    const auto given = std::make_shared<CalculatorGiven>();
    command->add_option("values", given->values, "What you know: edge=16.5cm")
        ->type_name("NAME=VALUE");
    command->footer([&calculator] { return values_text(calculator); });
    command->add_option("--unit", given->unit, "Lengths are shown in mm, cm or in");
    command->add_option("--svg", given->svg, "Draw the cover into this file")->type_name("FILE");
    command->callback([&shell, given, &calculator] {
        shell.action = [&shell, given, &calculator] { calculate(shell, calculator, *given); };
    });
}

} // namespace

void add_calculate_command(Command& app, Shell& shell) {
    auto* group = app.add_subcommand(
        "calculate", "Work out a cover, a binding, a thickness, a paper; needs no shop");
    group->require_subcommand();
    for (const design::ReadyDesign& calculator : design::calculators())
        add_one(*group, shell, calculator);
}

} // namespace barrow::cli
