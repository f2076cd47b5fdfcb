#pragma once

#include "design/formula/place.hpp"
#include "design/formula/quantity.hpp"

#include <cstddef>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace barrow::design {

/// An arithmetic formula, parsed. Grammar, weakest first:
///
///   condition = sum ("<" | "<=" | ">" | ">=" | "=" | "!=") sum       (inside if, and in checks)
///   formula   = sum
///   sum       = product { ("+" | "-") product }
///   product   = signed { ("*" | "/") signed }
///   signed    = "-" signed | atom
///   atom      = number [unit] | name | function "(" ... ")" | "(" formula ")"
///   number    = 12 | 2.5 | 5/8 | 6 1/2   (the last two only before a unit: 5/8in is one number)
///   unit      = a unit, "%" or two units with a slash and no space: 70 ml/m2, 310 g/m2, 1.3 cm3/g
///   name      = letters, digits, "_" and "." ("cover.length")
///   function  = min(a, b, ...) | max(a, b, ...) | if(condition, a, b)
///             | round_up(x, step) | round_down(x, step) | round(x, step)   (step 1 if left out)
///             | size_for(x, a, b, ...) | loops(edge, pitch, clear)
///
/// Addition, min, max and comparison want both sides of one dimension; multiplication and
/// division combine dimensions. Everything is exact.
/// size_for is the smallest of a, b, ... that is not below x: a size out of a row of sizes to be
/// had. loops is the number of holes of a binding: round_down((edge - 2 clear) / pitch, 1) + 1,
/// hole centres at least `clear` from each end (derived from published loop counts, see
/// tests/design/wire_loops.csv).
class Formula {
public:
    struct Node;

    Formula() = default;
    Formula(std::string text, Place place, std::shared_ptr<const Node> root);

    const std::string& text() const { return text_; }
    const Place& place() const { return place_; }
    /// Requires a formula that is not empty.
    const Node& root() const { return *root_; }
    bool empty() const { return root_ == nullptr; }
    /// How deep it is nested: bounds the stack that working it out takes.
    int depth() const;

private:
    std::string text_;
    Place place_;
    std::shared_ptr<const Node> root_; // immutable, so copies of a formula may share it
};

/// Throws base::Error (Kind::bad_input) naming line and column of what cannot be understood.
Formula parse_formula(std::string text, Place place);

/// The same for a condition: "cover.base >= block.thickness".
Formula parse_condition(std::string text, Place place);

/// What a name stands for; `offset` is where in the formula it is used, for messages.
using Lookup = std::function<Quantity(std::string_view name, std::size_t offset)>;

/// Throws base::Error (Kind::bad_input) for dimensions that do not match, division by zero, a step
/// that is not positive, or numbers too large to be exact, naming line and column; NotToBeHad for
/// a size_for whose sizes are all too small. Requires a formula that is not empty.
Quantity evaluate(const Formula& formula, const Lookup& lookup);

/// Whether a condition holds. Requires one from parse_condition; throws as evaluate does.
bool holds(const Formula& condition, const Lookup& lookup);

/// Names used, in order of first use.
std::vector<std::string> names_in(const Formula& formula);

/// The formula with every name replaced by its value: "20 mm + 165 mm + 20 mm".
std::string spelled_out(const Formula& formula, const Lookup& lookup);

} // namespace barrow::design
