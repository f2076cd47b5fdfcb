#pragma once

#include "design/formula/quantity.hpp"

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace barrow::design {

/// A function of the formula language: how it is written, and how many values it takes.
struct FunctionShape {
    std::string_view name;
    std::size_t least;
    std::size_t most;
    std::string_view usage;
};

/// All functions; `if` is among them, though the evaluator works it out itself.
std::span<const FunctionShape> function_shapes();

/// Calls a function (not `if`) on values that are all of one dimension and as many as its shape
/// asks for. Throws base::Error (Kind::bad_input, `where` as given) as evaluate does.
Quantity call_function(std::string_view name, const std::vector<Quantity>& values,
                       const std::string& where);

} // namespace barrow::design
