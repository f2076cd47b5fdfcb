#include "design/work/desk.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace barrow::design {

using base::Length;
using base::Rational;

namespace {

constexpr std::int64_t most_of_one_part = 100'000;

void say_once(std::vector<std::string>& list, std::string text) {
    if (std::find(list.begin(), list.end(), text) == list.end()) list.push_back(std::move(text));
}

} // namespace

void Desk::note(const base::Error& error, const Place& place) {
    if (error.kind() != base::Kind::refused && error.kind() != base::Kind::bad_input) throw error;
    for (base::Problem problem : error.problems()) {
        // Arithmetic that leaves 64 bits is refused without a place of its own.
        const bool arithmetic = error.kind() == base::Kind::refused && problem.where.empty();
        if (problem.where.empty()) problem.where = place.at();
        const bool told = std::any_of(problems_.begin(), problems_.end(), [&](const auto& other) {
            return other.where == problem.where && other.what == problem.what;
        });
        if (told) continue;
        if (error.kind() != base::Kind::refused || arithmetic) all_refused_ = false;
        problems_.push_back(std::move(problem));
    }
}

void Desk::throw_if_any() const {
    if (problems_.empty()) return;
    throw base::Error(all_refused_ ? base::Kind::refused : base::Kind::bad_input, problems_);
}

void Desk::warn(std::string text, Severity severity) {
    for (const Warning& other : worked.warnings)
        if (other.text == text) return;
    worked.warnings.push_back({std::move(text), severity});
}

void Desk::say_not_known(const NotToBeHad& missing) {
    const base::Problem& problem = missing.problems().front();
    say_once(worked.not_known,
             problem.hint.empty() ? problem.what : problem.what + " (" + problem.hint + ")");
}

void Desk::refuse(const Formula& formula, const Quantity& value, const std::string& wanted) {
    throw base::bad_input(formula.place().at(),
                          fmt::format("\"{}\" is {} ({}); expected {}", formula.text(),
                                      describe(value.dimension), to_text(value), wanted));
}

Length Desk::length_of(const Formula& formula) {
    const Length length = length_or_zero(formula);
    if (length.is_zero()) refuse(formula, names.value(formula), "a length above zero");
    return length;
}

Length Desk::length_or_zero(const Formula& formula) {
    const Quantity value = names.value(formula);
    if (value.dimension != a_length) refuse(formula, value, "a length");
    const auto length = as_length(value);
    if (!length) refuse(formula, value, "a length between zero and 100 km");
    return *length;
}

std::int64_t Desk::count_of(const Formula& formula) {
    const Quantity value = names.value(formula);
    if (value.dimension != plain) refuse(formula, value, "a plain number");
    if (!value.number.is_whole())
        throw base::bad_input(
            formula.place().at(),
            fmt::format("\"{}\" is {}; expected a whole number", formula.text(), to_text(value)),
            "round it: round_up(...) or round_down(...)");
    if (value.number < Rational(0) || value.number > Rational(most_of_one_part))
        refuse(formula, value, fmt::format("a number from 0 to {}", most_of_one_part));
    return value.number.number();
}

Rational Desk::number_of(const Formula& formula) {
    const Quantity value = names.value(formula);
    if (value.dimension != plain || value.number < Rational(0))
        refuse(formula, value, "a plain number, zero or more");
    return value.number;
}

void Desk::explain(const std::string& group, const std::string& name, const Formula& formula) {
    const Quantity value = names.value(formula);
    const std::string spelled = names.spelled(formula);
    explain(group, name, formula.text(), spelled, value);
}

void Desk::explain(const std::string& group, const std::string& name, const std::string& formula,
                   const std::string& spelled, const Quantity& value) {
    worked.explanations.push_back({name, formula, spelled, to_text(value), group});
}

const Formula& Desk::own_formula(std::string text, const Place& place) {
    Place plain_place = place;
    plain_place.column = 0; // its text does not stand in the file, so it has no column there
    own_.push_back(parse_formula(std::move(text), std::move(plain_place)));
    return own_.back();
}

} // namespace barrow::design
