#include "design/formula/formula.hpp"

#include "base/error.hpp"
#include "design/formula/functions.hpp"
#include "design/formula/node.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace barrow::design {
namespace {

using base::Rational;
using Node = Formula::Node;

/// Powers of a unit beyond this are a mistake, and would leave the small type that holds them.
constexpr int most_power = 60;

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

    bool holds(const Node& comparison) const {
        const Quantity a = of(*comparison.parts[0]);
        const Quantity b = of(*comparison.parts[1]);
        same_dimension(comparison, a, b);
        const auto order = a.number <=> b.number;
        const std::string& sign = comparison.text;
        return (sign == "<" && order < 0) || (sign == "<=" && order <= 0)
               || (sign == ">" && order > 0) || (sign == ">=" && order >= 0)
               || (sign == "=" && order == 0) || (sign == "!=" && order != 0);
    }

private:
    std::string where(const Node& node) const { return formula_.place().at(node.offset); }

    void same_dimension(const Node& node, const Quantity& a, const Quantity& b) const {
        if (a.dimension == b.dimension) return;
        throw base::bad_input(
            where(node),
            fmt::format("\"{}\" wants two measures of one kind, but has {} ({}) and {} ({})",
                        node.text, describe(a.dimension), to_text(a), describe(b.dimension),
                        to_text(b)),
            "give both the same kind of unit");
    }

    Quantity binary(const Node& node) const {
        const Quantity a = of(*node.parts[0]);
        const Quantity b = of(*node.parts[1]);
        switch (node.text[0]) {
        case '+': same_dimension(node, a, b); return {a.number + b.number, a.dimension};
        case '-': same_dimension(node, a, b); return {a.number - b.number, a.dimension};
        case '*': return {a.number * b.number, combine(node, a.dimension, b.dimension, 1)};
        case '/':
            if (b.number == Rational(0)) throw base::bad_input(where(node), "division by zero");
            return {a.number / b.number, combine(node, a.dimension, b.dimension, -1)};
        default: throw base::broken("a comparison outside if()");
        }
    }

    Dimension combine(const Node& node, const Dimension& a, const Dimension& b, int sign) const {
        const int length = a.length + sign * b.length;
        const int mass = a.mass + sign * b.mass;
        if (std::max(std::abs(length), std::abs(mass)) > most_power)
            throw base::bad_input(where(node), "nothing is measured in so high a power of a unit");
        return {static_cast<std::int8_t>(length), static_cast<std::int8_t>(mass)};
    }

    Quantity call(const Node& node) const {
        if (node.text == "if") return of(*node.parts[holds(*node.parts[0]) ? 1 : 2]);
        std::vector<Quantity> values;
        for (const auto& part : node.parts) {
            values.push_back(of(*part));
            same_dimension(node, values.front(), values.back());
        }
        return call_function(node.text, values, where(node));
    }

    const Formula& formula_;
    const Lookup& lookup_;
};

/// Runs a calculation; arithmetic that leaves 64 bits is refused without a place: says where it
/// was.
template <typename Calculation>
auto with_place(const Formula& formula, Calculation calculation) -> decltype(calculation()) {
    try {
        return calculation();
    } catch (const base::Error& error) {
        if (error.kind() != base::Kind::refused) throw;
        throw base::bad_input(formula.place().at(), error.what(), "use smaller numbers");
    }
}

void collect(const Node& node, std::vector<std::string>& names) {
    if (node.kind == Node::Kind::name
        && std::find(names.begin(), names.end(), node.text) == names.end())
        names.push_back(node.text);
    for (const auto& part : node.parts) collect(*part, names);
}

void find_names(const Node& node, std::vector<std::pair<std::size_t, std::string>>& at) {
    if (node.kind == Node::Kind::name) at.emplace_back(node.offset, node.text);
    for (const auto& part : node.parts) find_names(*part, at);
}

} // namespace

Quantity evaluate(const Formula& formula, const Lookup& lookup) {
    return with_place(formula, [&] { return Evaluation(formula, lookup).of(formula.root()); });
}

bool holds(const Formula& condition, const Lookup& lookup) {
    return with_place(condition,
                      [&] { return Evaluation(condition, lookup).holds(condition.root()); });
}

std::vector<std::string> names_in(const Formula& formula) {
    std::vector<std::string> names;
    collect(formula.root(), names);
    return names;
}

std::string spelled_out(const Formula& formula, const Lookup& lookup) {
    std::vector<std::pair<std::size_t, std::string>> names;
    find_names(formula.root(), names);
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
