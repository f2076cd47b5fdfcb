#include "design/formula/functions.hpp"

#include "base/error.hpp"
#include "design/formula/not_to_be_had.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace barrow::design {
namespace {

using base::Rational;
using Values = std::vector<Quantity>;

constexpr std::size_t any_number = 99;
constexpr std::array<FunctionShape, 8> shapes = {{
    {"min", 1, any_number, "min(a, b, ...)"},
    {"max", 1, any_number, "max(a, b, ...)"},
    {"round_up", 1, 2, "round_up(x, step)"},
    {"round_down", 1, 2, "round_down(x, step)"},
    {"round", 1, 2, "round(x, step)"},
    {"if", 3, 3, "if(a < b, this, that)"},
    {"size_for", 2, any_number, "size_for(x, size, size, ...)"},
    {"loops", 3, 3, "loops(edge, pitch, clear)"},
}};

bool less(const Quantity& a, const Quantity& b) {
    return a.number < b.number;
}

Quantity loops(const Values& values, const std::string& where) {
    const Rational pitch = values[1].number;
    if (pitch <= Rational(0))
        throw base::bad_input(where, "the pitch of loops() is not above zero");
    const Rational room = values[0].number - Rational(2) * values[2].number;
    if (room < Rational(0))
        throw base::bad_input(where,
                              fmt::format("no loop fits on an edge of {} with {} clear at each end",
                                          to_text(values[0]), to_text(values[2])),
                              "leave less clear, or choose a longer edge");
    return {Rational((room / pitch).floor() + 1), plain};
}

Quantity size_for(const Values& values, const std::string& where) {
    const Quantity& wanted = values.front();
    const Quantity* best = nullptr;
    for (std::size_t i = 1; i < values.size(); ++i)
        if (!less(values[i], wanted) && (best == nullptr || less(values[i], *best)))
            best = &values[i];
    if (best != nullptr) return *best;
    const Quantity& largest = *std::max_element(values.begin() + 1, values.end(), less);
    throw NotToBeHad({where,
                      fmt::format("{} is wanted, but the largest size there is is {}",
                                  to_text(wanted), to_text(largest)),
                      "make it smaller, or thinner"});
}

Quantity round_to_step(std::string_view name, const Values& values, const std::string& where) {
    if (values.size() == 1 && values[0].dimension != plain)
        throw base::bad_input(
            where, fmt::format("{} of {} wants a step", name, describe(values[0].dimension)),
            fmt::format("for example {}(..., 1 mm)", name));
    const Quantity step = values.size() == 1 ? Quantity{Rational(1), plain} : values[1];
    if (step.number <= Rational(0))
        throw base::bad_input(where, fmt::format("the step of {} is {}", name, to_text(step)),
                              "a step is above zero");
    const Rational steps = values[0].number / step.number;
    std::int64_t whole = 0;
    if (name == "round_up") {
        whole = steps.ceiling();
    } else if (name == "round_down") {
        whole = steps.floor();
    } else {
        whole = steps.rounded();
    }
    return {Rational(whole) * step.number, values[0].dimension};
}

} // namespace

std::span<const FunctionShape> function_shapes() {
    return shapes;
}

Quantity call_function(std::string_view name, const Values& values, const std::string& where) {
    if (name == "min") return *std::min_element(values.begin(), values.end(), less);
    if (name == "max") return *std::max_element(values.begin(), values.end(), less);
    if (name == "loops") return loops(values, where);
    if (name == "size_for") return size_for(values, where);
    return round_to_step(name, values, where);
}

} // namespace barrow::design
