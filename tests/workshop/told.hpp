#pragma once

#include "book/shop.hpp"

#include <string>

namespace barrow::test {

/// The line of a part in the document of `cost`; null when there is none.
inline nlohmann::json part_line(const nlohmann::json& cost, const std::string& part) {
    for (const auto& line : cost.at("lines"))
        if (line.at("part") == part) return line;
    return nullptr;
}

/// What the book says of the whole shop, without what only tells when.
inline nlohmann::json standing(Shop& shop) {
    return {shop.json("stock"), shop.json("value"), shop.json("offcut list"),
            shop.json("journal list")};
}

} // namespace barrow::test
