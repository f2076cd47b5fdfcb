#include "design/formula.hpp"

#include "base/error.hpp"
#include "design/formula_node.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::design {
namespace {

using base::Rational;
using Node = Formula::Node;

class Evaluation {
public:
    Evaluation(const Formula& formula, const Lookup& lookup) : formula_(formula), lookup_(lookup) {}

    Quantity of(const Node& node) const {
        switch (node.kind) {
        case Node::Kind::literal: return node.value;
        case Node::Kind::name: return lookup_(node.text, node.offset);
        case Node::Kind::negative: {
            const Quantity value = of(*node.parts[0]);
            return {-value.number, value.dimension};
        }
        case Node::Kind::binary: return binary(node);
        case Node::Kind::call: return call(node);
        }
        throw base::broken("a formula node of no kind");
    }

private:
    base::Error wrong(const Node& node, const std::string& what,
                      const std::string& hint = {}) const {
        return base::bad_input(formula_.place().at(node.offset), what, hint);
    }

    void same_dimension(const Node& node, const Quantity& a, const Quantity& b) const {
        if (a.dimension == b.dimension) return;
        throw wrong(node,
                    fmt::format("\"{}\" wants two measures of one kind, but has {} ({}) and {} ({})",
                                node.text, describe(a.dimension), to_text(a),
                                describe(b.dimension), to_text(b)),
                    "give both the same kind of unit");
    }

    Quantity binary(const Node& node) const {
        const Quantity a = of(*node.parts[0]);
        const Quantity b = of(*node.parts[1]);
        switch (node.text[0]) {
        case '+': same_dimension(node, a, b); return {a.number + b.number, a.dimension};
        case '-': same_dimension(node, a, b); return {a.number - b.number, a.dimension};
        case '*': return {a.number * b.number, combine(a.dimension, b.dimension, 1)};
        case '/':
            if (b.number == Rational(0)) throw wrong(node, "division by zero");
            return {a.number / b.number, combine(a.dimension, b.dimension, -1)};
        default: throw base::broken("a comparison outside if()");
        }
    }

    static Dimension combine(const Dimension& a, const Dimension& b, int sign) {
        const auto add = [sign](std::int8_t x, std::int8_t y) {
            return static_cast<std::int8_t>(x + sign * y);
        };
        return {add(a.length, b.length), add(a.volume, b.volume), add(a.mass, b.mass)};
    }

    Quantity call(const Node& node) const {
        if (node.text == "if") return choose(node);
        std::vector<Quantity> values;
        for (const auto& part : node.parts) {
            values.push_back(of(*part));
            same_dimension(node, values.front(), values.back());
        }
        if (node.text == "loops") return loops(node, values);
        if (node.text == "min" || node.text == "max") {
            const auto less = [](const Quantity& a, const Quantity& b) { return a.number < b.number; };
            return node.text == "min" ? *std::min_element(values.begin(), values.end(), less)
                                      : *std::max_element(values.begin(), values.end(), less);
        }
        const Rational step = values[1].number;
        if (step <= Rational(0))
            throw wrong(node, fmt::format("the step of {} is {}", node.text, to_text(values[1])),
                        "a step is above zero");
        const Rational steps = values[0].number / step;
        std::int64_t whole = 0;
        if (node.text == "round_up") {
            whole = steps.ceiling();
        } else if (node.text == "round_down") {
            whole = steps.floor();
        } else {
            whole = steps.rounded();
        }
        return {Rational(whole) * step, values[0].dimension};
    }

    Quantity loops(const Node& node, const std::vector<Quantity>& values) const {
        const Rational pitch = values[1].number;
        if (pitch <= Rational(0)) throw wrong(node, "the pitch of loops() is not above zero");
        const Rational room = values[0].number - Rational(2) * values[2].number;
        if (room < Rational(0))
            throw wrong(node,
                        fmt::format("no loop fits on an edge of {} with {} clear at each end",
                                    to_text(values[0]), to_text(values[2])));
        return {Rational((room / pitch).floor() + 1), plain};
    }

    Quantity choose(const Node& node) const {
        const Node& comparison = *node.parts[0];
        const Quantity a = of(*comparison.parts[0]);
        const Quantity b = of(*comparison.parts[1]);
        same_dimension(comparison, a, b);
        const auto order = a.number <=> b.number;
        const std::string& sign = comparison.text;
        const bool holds = (sign == "<" && order < 0) || (sign == "<=" && order <= 0)
            || (sign == ">" && order > 0) || (sign == ">=" && order >= 0)
            || (sign == "=" && order == 0) || (sign == "!=" && order != 0);
        return of(*node.parts[holds ? 1 : 2]);
    }

    const Formula& formula_;
    const Lookup& lookup_;
};

void collect(const Node& node, std::vector<std::string>& names) {
    if (node.kind == Node::Kind::name
        && std::find(names.begin(), names.end(), node.text) == names.end())
        names.push_back(node.text);
    for (const auto& part : node.parts) collect(*part, names);
}

void spell(const Node& node, const Lookup& lookup, std::vector<std::pair<std::size_t, std::string>>& at) {
    if (node.kind == Node::Kind::name) at.emplace_back(node.offset, node.text);
    for (const auto& part : node.parts) spell(*part, lookup, at);
}

} // namespace

Quantity evaluate(const Formula& formula, const Lookup& lookup) {
    try {
        return Evaluation(formula, lookup).of(formula.root());
    } catch (const base::Error& error) {
        // Arithmetic that leaves 64 bits is refused without a place; say where it was.
        if (error.kind() != base::Kind::refused) throw;
        throw base::bad_input(formula.place().at(), error.what(), "use smaller numbers");
    }
}

std::vector<std::string> names_in(const Formula& formula) {
    std::vector<std::string> names;
    collect(formula.root(), names);
    return names;
}

std::string spelled_out(const Formula& formula, const Lookup& lookup) {
    std::vector<std::pair<std::size_t, std::string>> names;
    spell(formula.root(), lookup, names);
    std::sort(names.begin(), names.end());
    std::string text;
    std::size_t from = 0;
    for (const auto& [offset, name] : names) {
        text += formula.text().substr(from, offset - from);
        text += to_text(lookup(name, offset));
        from = offset + name.size();
    }
    return text + formula.text().substr(from);
}

} // namespace barrow::design
