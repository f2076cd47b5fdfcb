#pragma once

#include "book/shop.hpp"

#include <string>
#include <vector>

namespace barrow::test {

/// The little shop with a design "tied" of one envelope and, as fillers, two tags of 60 x 60 mm
/// and a bow of ribbon.
inline void keep_tied(Shop& shop) {
    stock_up(shop);
    shop.design("[design]\ncode = \"tied\"\nname = \"Tied letters\"\n"
                "[materials]\npaper = \"MOSS\"\nenvelope = \"ENV\"\nribbon = \"RIB\"\n"
                "[[part]]\nname = \"envelope\"\nmaterial = \"envelope\"\nnumber = \"1\"\n"
                "[[filler]]\nname = \"tag\"\nmaterial = \"paper\"\nwidth = \"60 mm\"\n"
                "height = \"60 mm\"\nnumber = 2\nworth = \"0.40\"\n"
                "[[filler]]\nname = \"bow\"\nmaterial = \"ribbon\"\nlength = \"300 mm\"\n"
                "worth = \"1.00\"\n");
}

/// Of the offcuts of a material that are in the box.
inline std::vector<std::string> labels(Shop& shop, const std::string& material) {
    std::vector<std::string> labels;
    for (const auto& offcut : shop.list("offcut list", "offcuts"))
        if (offcut.at("material") == material) labels.push_back(offcut.at("code"));
    return labels;
}

} // namespace barrow::test
