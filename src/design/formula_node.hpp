#pragma once

#include "design/formula.hpp"

#include <cstddef>
#include <memory>
#include <string>
#include <vector>

namespace barrow::design {

/// One node of a parsed formula. `offset` is its place in the text, for messages.
struct Formula::Node {
    enum class Kind { literal, name, negative, binary, call } kind = Kind::literal;
    std::size_t offset = 0;
    std::string text;  ///< of a literal: as written; name or function name; operator sign
    Quantity value;    ///< of a literal
    std::vector<std::shared_ptr<const Node>> parts;
};

} // namespace barrow::design
