#pragma once

#include <cstddef>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <utility>

namespace barrow::design {

/// Where something stands, for messages: "quay.toml:12:18" and what it is for.
struct Place {
    std::string file;
    int line = 0;
    int column = 0; ///< of the first character of the formula; 0 when it has no place in a file
    std::string field;
    /// Of a table: line and column of the value of each of its keys.
    std::shared_ptr<const std::map<std::string, std::pair<int, int>, std::less<>>> keys = {};

    /// Place of a key's value in a table; that of the table where the key is not in it.
    Place of(std::string_view key) const;

    /// "quay.toml:12:18, part "tags" width", with the column moved right by `offset` characters.
    std::string at(std::size_t offset = 0) const;
};

} // namespace barrow::design
