#pragma once

#include "design/formula/formula.hpp"

#include <cstddef>
#include <memory>
#include <string>
#include <vector>

namespace barrow::design {

/// One node of a parsed formula. `offset` is its place in the text, for messages.
struct Formula::Node {
    enum class Kind { literal, name, negative, binary, call } kind = Kind::literal;
    std::size_t offset = 0;
    std::string text; ///< of a literal: as written; name or function name; operator or comparison
    Quantity value;   ///< of a literal
    std::vector<std::shared_ptr<const Node>> parts;
    int depth = 1; ///< 1 for a leaf, else one more than the deepest part
};

} // namespace barrow::design
