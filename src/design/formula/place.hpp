#pragma once

#include <cstddef>
#include <string>

namespace barrow::design {

/// Where something stands, for messages: "quay.toml:12:18" and what it is for.
struct Place {
    std::string file;
    int line = 0;
    int column = 0; ///< of the first character of the formula; 0 when it has no place in a file
    std::string field;

    /// "quay.toml:12:18, part "tags" width", with the column moved right by `offset` characters.
    std::string at(std::size_t offset = 0) const;
};

} // namespace barrow::design
