#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace barrow::reading {

/// A JSON value that still has its numbers as they were written, so that 304.8 can be read
/// exactly, and the line it stands on.
struct JsonNode {
    enum class Kind { null, boolean, number, text, list, object } kind = Kind::null;
    int line = 0;
    bool truth = false;
    std::string text; ///< of a text: its value; of a number: as written
    std::vector<JsonNode> items;
    std::vector<std::pair<std::string, JsonNode>> members; ///< in the order of the file

    const JsonNode* find(std::string_view name) const;
};

/// Reads JSON text. Throws base::Error (Kind::bad_input) naming file and line for text that is
/// not JSON and for an object that names a member twice.
JsonNode read_json(std::string_view text, const std::string& file);

/// "a number", "text", "a list", ...
const char* kind_name(JsonNode::Kind kind);

} // namespace barrow::reading
