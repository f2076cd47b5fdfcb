#pragma once

#include "model/book.hpp"

#include <map>
#include <string>
#include <vector>

/// The shop the histories play in: one material of each form and two designs of a few pieces, so
/// that laying out takes little of the time.
namespace model {

constexpr Count mm = 8'000;

inline const std::vector<Material>& supplies() {
    static const std::vector<Material> materials = {{1, "PAPER", true, 300 * mm, 200 * mm},
                                                    {2, "BOARD", true, 300 * mm, 300 * mm},
                                                    {3, "RIBBON", true, 2'000 * mm, 1},
                                                    {4, "WIRE", true, 30, 1},
                                                    {5, "TAG", false, 1, 1},
                                                    {6, "GLUE", false, 1, 1}};
    return materials;
}

constexpr Count paper = 1, board = 2, ribbon = 3, wire = 4, tag = 5, glue = 6;

/// Rows of the materials, beside supplies().
inline std::vector<std::map<std::string, std::string>> supply_rows() {
    return {
        {{"code", "PAPER"},
         {"name", "Reed paper"},
         {"form", "sheet"},
         {"width", "300mm"},
         {"height", "200mm"},
         {"pack", "4"},
         {"pack_price", "3.10"},
         {"keep_from", "40mm x 40mm"}},
        {{"code", "BOARD"},
         {"name", "Grey board"},
         {"form", "sheet"},
         {"width", "300mm"},
         {"height", "300mm"},
         {"keep_from", "50mm x 50mm"},
         {"kerf", "1mm"}},
        {{"code", "RIBBON"},
         {"name", "Moss ribbon"},
         {"form", "length"},
         {"length", "2000mm"},
         {"keep_from", "200mm"}},
        {{"code", "WIRE"}, {"name", "Wire"}, {"form", "wire"}, {"loops", "30"}, {"keep_from", "4"}},
        {{"code", "TAG"}, {"name", "Tags"}, {"form", "count"}},
        {{"code", "GLUE"}, {"name", "Paste"}, {"form", "bulk"}, {"bulk_unit", "ml"}},
    };
}

/// What one journal of a design takes of a material: pieces of a measure (plain: a quantity).
struct Need {
    Count material = 0, pieces = 0, measure = 0;
};

struct Recipe {
    std::string code;
    std::string text;
    std::vector<Need> needs;
    std::vector<Need> fillers; ///< at most so many pieces; of one material all of one measure
};

inline const std::vector<Recipe>& recipes() {
    static const std::vector<Recipe> designs = {
        {"leaf",
         R"([design]
code = "leaf"
name = "Folded leaf"
[materials]
paper = "PAPER"
tag = "TAG"
glue = "GLUE"
[[part]]
name = "leaf"
material = "paper"
width = "140 mm"
height = "90 mm"
[[part]]
name = "tags"
material = "tag"
number = "2"
[[part]]
name = "glue"
material = "glue"
amount = "0.7 ml"
[[filler]]
name = "slip"
material = "paper"
width = "40 mm"
height = "30 mm"
number = 2
worth = "0.05"
[[operation]]
name = "fold"
minutes = 7
)",
         {{paper, 1, 140 * mm * (90 * mm)}, {tag, 1, 2}, {glue, 1, 700}},
         {{paper, 2, 40 * mm * (30 * mm)}}},
        {"book",
         R"([design]
code = "book"
name = "Bound book"
[materials]
paper = "PAPER"
board = "BOARD"
ribbon = "RIBBON"
wire = "WIRE"
tag = "TAG"
[[part]]
name = "leaf"
material = "paper"
width = "180 mm"
height = "100 mm"
[[part]]
name = "covers"
material = "board"
width = "110 mm"
height = "150 mm"
number = "2"
[[part]]
name = "tie"
material = "ribbon"
length = "600 mm"
[[part]]
name = "wire"
material = "wire"
loops = "7"
[[part]]
name = "tag"
material = "tag"
number = "1"
[[filler]]
name = "corner"
material = "board"
width = "45 mm"
height = "45 mm"
number = 2
worth = "0.04"
[[filler]]
name = "mark"
material = "ribbon"
length = "230 mm"
worth = "0.60"
[[operation]]
name = "bind"
minutes = 13
)",
         {{paper, 1, 180 * mm * (100 * mm)},
          {board, 2, 110 * mm * (150 * mm)},
          {ribbon, 1, 600 * mm},
          {wire, 1, 7},
          {tag, 1, 1}},
         {{board, 2, 45 * mm * (45 * mm)}, {ribbon, 1, 230 * mm}}}};
    return designs;
}

} // namespace model
