#pragma once

#include "design/file/toml_table.hpp"
#include "design/recipe/design.hpp"

#include <string>
#include <string_view>
#include <vector>

/// The tables of a design file, each read onto a design: an empty one, or the one that the file or
/// the variant builds on, of which what is given is changed, replaced or added to. `top` is the
/// whole file or the table of a variant; both hold the same tables. Problems are gathered, never
/// thrown.
namespace barrow::design {

/// True for what may stand in formulas: a small letter, then small letters, digits and _, at most
/// 40, and not the name of a unit.
bool is_name(std::string_view text);

/// True for a code: letters, digits, - and _, at most 40.
bool is_code(std::string_view text);

void read_parameters(TomlTable& top, Design& design);
void read_definitions(TomlTable& top, Design& design);
void read_slots(TomlTable& top, Design& design);
void read_adhesives(TomlTable& top, Design& design);
void read_cover(TomlTable& top, Design& design);
void read_block(TomlTable& top, Design& design);
void read_binding(TomlTable& top, Design& design);
void read_parts(TomlTable& top, Design& design);
void read_operations(TomlTable& top, Design& design);
void read_checks(TomlTable& top, Design& design);

/// Takes out the parts, fillers, layers of the block and operations that `without` names.
void read_without(TomlTable& table, Design& design);

/// How a piece is glued: glue = { paste = "area", tape = ["left", "right"] }.
std::vector<GlueSpec> read_glue(TomlTable& fields);

/// Complains of names that stand for nothing in the design as a whole: slots, panels, folds,
/// adhesives; and of names given to two things.
void check_references(const Design& design, Complaints& complaints);

/// The item of that name in a list of named things, or null.
template <typename List>
auto* named(List& list, std::string_view name) {
    for (auto& item : list)
        if (item.name == name) return &item;
    return static_cast<decltype(list.data())>(nullptr);
}

/// Puts an item in the place of the one of its name, or at the end.
template <typename Item>
void replace_or_add(std::vector<Item>& list, Item item) {
    if (Item* there = named(list, item.name)) {
        *there = std::move(item);
    } else {
        list.push_back(std::move(item));
    }
}

} // namespace barrow::design
