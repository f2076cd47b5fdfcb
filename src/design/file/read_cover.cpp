#include "design/file/reader.hpp"

#include "design/cover/cover_names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace barrow::design {
namespace {

/// A panel's fold may be text (its allowance), or a table that also says which way it closes.
void read_fold(TomlTable& fields, Panel& panel) {
    const toml::node* node = fields.node("fold");
    if (node == nullptr) return;
    const auto* table = node->as_table();
    if (table == nullptr) {
        panel.fold = fields.formula("fold");
        return;
    }
    TomlTable fold(*table, fields.place("fold").field, fields.complaints());
    panel.fold = fold.formula("allowance");
    if (const auto way = fold.choice("closes", {"in", "out"})) panel.fold_out = *way == 1;
    fold.finish();
}

void read_panel(const TomlTable& cover, const toml::node& node, CoverSpec& spec) {
    const auto* table = node.as_table();
    const std::string title = cover.place("panels").field;
    if (table == nullptr) {
        cover.complaints().add(cover.place_of(node, title),
                               "a panel is { name = \"...\", width = \"...\" }");
        return;
    }
    TomlTable fields(*table, title, cover.complaints());
    Panel panel;
    panel.place = fields.place();
    panel.name = fields.text("name", true);
    panel.width = fields.formula("width", true);
    constexpr std::array<Role, 3> roles = {Role::face, Role::base, Role::flap};
    if (const auto role = fields.choice("is", {"face", "base", "flap"})) panel.role = roles[*role];
    read_fold(fields, panel);
    if (!is_name(panel.name) || is_cover_name(panel.name)
        || named(spec.panels, panel.name) != nullptr)
        cover.complaints().add(fields.place("name"),
                               fmt::format("\"{}\" cannot be the name of a panel", panel.name),
                               "each panel has its own name of small letters, digits and _, other "
                               "than "
                                   + cover_name_list());
    fields.finish();
    spec.panels.push_back(std::move(panel));
}

LayerSpec read_layer(TomlTable& fields) {
    LayerSpec layer;
    layer.place = fields.place();
    layer.name = fields.text("name", true);
    layer.slot = fields.text("material");
    layer.number = fields.formula("number");
    layer.each = fields.formula("each");
    layer.envelope = fields.flag("envelope");
    layer.walls = fields.formula("walls");
    layer.flap = fields.formula("flap");
    layer.seams = fields.formula("seams");
    layer.filling = fields.flag("filling");
    if (!is_name(layer.name) || layer.name == "thickness" || layer.name == "empty")
        fields.complaints().add(fields.place("name"),
                                fmt::format("\"{}\" cannot be the name of a layer", layer.name),
                                "use small letters, digits and _, but not thickness or empty");
    if (layer.slot.empty() == layer.each.empty())
        fields.complaints().add(
            fields.place(), "it is not clear how thick one of them is",
            "give material = \"...\", whose caliper counts, or each = \"1 mm\"");
    const bool plies = !layer.walls.empty() || !layer.flap.empty() || !layer.seams.empty();
    if (plies && !layer.envelope)
        fields.complaints().add(fields.place(),
                                "walls, flap and seams only go with envelope = true");
    return layer;
}

} // namespace

void read_cover(TomlTable& top, Design& design) {
    const toml::table* table = top.table("cover");
    if (table == nullptr) return;
    TomlTable cover(*table, top.titled("cover"), top.complaints());
    CoverSpec spec = design.cover.value_or(CoverSpec{});
    spec.place = cover.place();
    if (const bool is_new = !design.cover; is_new) spec.height = cover.formula("height", true);
    cover.change("height", spec.height);
    cover.change("fold", spec.fold);
    cover.change("board", spec.board);
    if (const toml::array* panels = cover.array("panels")) {
        spec.panels.clear();
        for (const toml::node& node : *panels) read_panel(cover, node, spec);
    }
    if (spec.panels.empty())
        top.complaints().add(cover.place(), "the cover has no panels",
                             "list them from left to right: panels = [ { name = \"front\", width = "
                             "\"...\" }, ... ]");
    cover.finish();
    design.cover = std::move(spec);
}

void read_block(TomlTable& top, Design& design) {
    const toml::table* table = top.table("block");
    if (table == nullptr) return;
    TomlTable block(*table, top.titled("block"), top.complaints());
    BlockSpec spec = design.block.value_or(BlockSpec{});
    spec.place = block.place();
    block.change("give", spec.give);
    std::vector<std::string> here;
    if (const toml::array* layers = block.array("layers")) {
        for (const toml::node& node : *layers) {
            const auto* layer_table = node.as_table();
            const std::string title = block.place("layers").field;
            if (layer_table == nullptr) {
                top.complaints().add(
                    block.place_of(node, title),
                    "a layer is { name = \"...\", material = \"...\", number = \"...\" }");
                continue;
            }
            TomlTable fields(*layer_table, title, top.complaints());
            LayerSpec layer = read_layer(fields);
            fields.finish();
            if (std::find(here.begin(), here.end(), layer.name) != here.end())
                top.complaints().add(layer.place,
                                     fmt::format("two layers are named \"{}\"", layer.name));
            here.push_back(layer.name);
            replace_or_add(spec.layers, std::move(layer));
        }
    }
    if (spec.layers.empty())
        top.complaints().add(
            block.place(), "the block has no layers",
            "list what lies between the covers: layers = [ { name = \"envelopes\", "
            "material = \"envelope\", number = \"envelopes\", envelope = true } ]");
    block.finish();
    design.block = std::move(spec);
}

} // namespace barrow::design
