#include "design/formula/place.hpp"

#include <fmt/format.h>

namespace barrow::design {

std::string Place::at(std::size_t offset) const {
    std::string text = file;
    if (line > 0) text += fmt::format(":{}", line);
    if (column > 0) text += fmt::format(":{}", static_cast<std::size_t>(column) + offset);
    if (!field.empty()) text += (text.empty() ? "" : ", ") + field;
    return text;
}

} // namespace barrow::design
