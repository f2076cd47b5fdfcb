#include "design/work/desk.hpp"

#include "base/text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::design {
namespace {

Quantity changed(const Parameter& parameter, const std::string& text) {
    const Place place{{}, 0, 0, fmt::format("--set {}={}", parameter.name, text)};
    const Formula formula = parse_formula(text, place);
    const Quantity value = evaluate(formula, [&](std::string_view name, std::size_t) -> Quantity {
        throw base::bad_input(place.at(), fmt::format("\"{}\" is not a value", name),
                              "give a number, with its unit where it has one: 17cm");
    });
    if (value.dimension != parameter.usual.dimension)
        throw base::bad_input(place.at(),
                              fmt::format("is {}, but {} is {}", describe(value.dimension),
                                          parameter.name, describe(parameter.usual.dimension)),
                              fmt::format("it is usually {}", to_text(parameter.usual)));
    return value;
}

void check_limits(const Parameter& parameter, const Quantity& value) {
    const auto refuse = [&](const std::string& what) {
        throw base::bad_input(
            parameter.place.at(),
            fmt::format("{} is {}, which is {}", parameter.name, to_text(value), what));
    };
    if (parameter.whole && !value.number.is_whole()) refuse("not a whole number");
    if (parameter.least && value.number < parameter.least->number)
        refuse("below the least, " + to_text(*parameter.least));
    if (parameter.most && value.number > parameter.most->number)
        refuse("above the most, " + to_text(*parameter.most));
}

void refuse_unknown_parameters(const Desk& desk) {
    std::vector<std::string> known;
    for (const Parameter& parameter : desk.design.parameters) known.push_back(parameter.name);
    for (const auto& [name, value] : desk.changes.parameters) {
        if (std::find(known.begin(), known.end(), name) != known.end()) continue;
        std::string hint = base::did_you_mean(name, known);
        if (hint.empty())
            hint = known.empty() ? std::string("it has none")
                                 : fmt::format("it has {}", fmt::join(known, ", "));
        throw base::bad_input(
            fmt::format("--set {}={}", name, value),
            fmt::format("the design {} has no parameter \"{}\"", desk.design.code, name), hint);
    }
}

} // namespace

void set_parameters(Desk& desk) {
    desk.attempt({}, [&] { refuse_unknown_parameters(desk); });
    for (const Parameter& parameter : desk.design.parameters) {
        Quantity value = parameter.usual;
        desk.attempt(parameter.place, [&] {
            const auto change = desk.changes.parameters.find(parameter.name);
            if (change != desk.changes.parameters.end()) value = changed(parameter, change->second);
            check_limits(parameter, value);
        });
        desk.names.set(parameter.name, value);
        desk.explain("parameter", parameter.name, {}, {}, value);
    }
}

} // namespace barrow::design
