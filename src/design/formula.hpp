#pragma once

#include "design/quantity.hpp"

#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace barrow::design {

/// Where a formula stands, for messages: "quay.toml:12:18" and what it is for.
struct Place {
    std::string file;
    int line = 0;
    int column = 0; ///< of the first character of the formula; 0 when it has no place in a file
    std::string field;

    /// "quay.toml:12:18, part "tags" width", with the column moved right by `offset` characters.
    std::string at(std::size_t offset = 0) const;
};

/// An arithmetic formula, parsed. Grammar, weakest first:
///
///   formula   = choice
///   choice    = sum [ ("<" | "<=" | ">" | ">=" | "=" | "!=") sum ]      (only inside if)
///   sum       = product { ("+" | "-") product }
///   product   = signed { ("*" | "/") signed }
///   signed    = "-" signed | atom
///   atom      = number [unit] | name | function "(" formula { "," formula } ")" | "(" formula ")"
///   number    = 12 | 2.5 | 5/8 | 6 1/2   (the last two only before a unit: 5/8in is one number)
///   name      = letters, digits, "_" and "." ("cover.length")
///   function  = min(a, b, ...) | max(a, b, ...) | round_up(x, step) | round_down(x, step)
///             | round(x, step) | if(choice, a, b) | loops(edge, pitch, clear)
///
/// Addition, min, max and comparison want both sides of one dimension; multiplication and
/// division combine dimensions. Everything is exact. loops is the number of holes of a binding:
/// round_down((edge - 2 clear) / pitch, 1) + 1, hole centres at least `clear` from each end
/// (derived from published loop counts, see tests/design/wire_loops.csv).
class Formula {
public:
    struct Node;

    Formula() = default;
    Formula(std::string text, Place place, std::shared_ptr<const Node> root);

    const std::string& text() const { return text_; }
    const Place& place() const { return place_; }
    const Node& root() const { return *root_; }
    bool empty() const { return root_ == nullptr; }

private:
    std::string text_;
    Place place_;
    std::shared_ptr<const Node> root_; // immutable, so copies of a formula may share it
};

/// Throws base::Error (Kind::bad_input) naming line and column of what cannot be understood.
Formula parse_formula(std::string text, Place place);

/// What a name stands for; `offset` is where in the formula it is used, for messages.
using Lookup = std::function<Quantity(std::string_view name, std::size_t offset)>;

/// Throws base::Error (Kind::bad_input) for dimensions that do not match, division by zero, a step
/// that is not positive, or numbers too large to be exact, naming line and column.
Quantity evaluate(const Formula& formula, const Lookup& lookup);

/// Names used, in order of first use.
std::vector<std::string> names_in(const Formula& formula);

/// The formula with every name replaced by its value: "20 mm + 165 mm + 20 mm".
std::string spelled_out(const Formula& formula, const Lookup& lookup);

} // namespace barrow::design
