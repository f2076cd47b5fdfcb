#include "design/formula/place.hpp"

#include <fmt/format.h>

#include <tuple>

namespace barrow::design {

Place Place::of(std::string_view key) const {
    Place place{file, line, column,
                field.empty() ? std::string(key) : fmt::format("{} {}", field, key)};
    if (!keys) return place;
    const auto found = keys->find(key);
    if (found != keys->end()) std::tie(place.line, place.column) = found->second;
    return place;
}

std::string Place::at(std::size_t offset) const {
    std::string text = file;
    if (line > 0) text += fmt::format(":{}", line);
    if (column > 0) text += fmt::format(":{}", static_cast<std::size_t>(column) + offset);
    if (!field.empty()) text += (text.empty() ? "" : ", ") + field;
    return text;
}

} // namespace barrow::design
