#include "design/file/reader.hpp"

#include <fmt/format.h>

#include <array>
#include <utility>

namespace barrow::design {
namespace {

/// Facts a design may state of a material, each a formula: caliper = "0.4 mm", wide =
/// "envelope_wide".
void read_stated(TomlTable& fields, SlotSpec& slot) {
    for (const FactKind& kind : fact_kinds()) {
        Formula formula = fields.formula(kind.name);
        if (!formula.empty()) slot.stated[std::string(kind.name)] = std::move(formula);
    }
}

void read_choice(TomlTable& fields, SlotSpec& slot) {
    slot.code = fields.text("code");
    slot.collection = fields.text("collection");
    slot.any_of = fields.texts("any_of");
    slot.reverse_of = fields.text("reverse_of");
    const int ways = (slot.code.empty() ? 0 : 1) + (slot.collection.empty() ? 0 : 1)
                     + (slot.any_of.empty() ? 0 : 1) + (slot.reverse_of.empty() ? 0 : 1);
    if (ways != 1)
        fields.complaints().add(fields.place(),
                                ways == 0 ? "it is not said what fills it"
                                          : "it is said in more than one way what fills it",
                                "give one of code, collection, any_of or reverse_of");
    constexpr std::array<Same, 3> sames = {Same::piece, Same::journal, Same::run};
    if (const auto same = fields.choice("same", {"piece", "journal", "run"}))
        slot.same = sames[*same];
    slot.differs_from = fields.texts("differs_from");
    if (const auto only = fields.choice("only", {"offcuts"})) slot.offcuts_only = true;
}

SlotSpec read_slot(TomlTable& all, const toml::node& node, const std::string& name) {
    SlotSpec slot;
    slot.name = name;
    slot.place = all.place(name);
    if (const auto* details = node.as_table()) {
        TomlTable fields(*details, slot.place.field, all.complaints());
        read_choice(fields, slot);
        read_stated(fields, slot);
        slot.about = fields.text("about");
        fields.finish();
    } else {
        slot.code = all.text(name, true);
    }
    return slot;
}

AdhesiveSpec read_adhesive(TomlTable& fields, const std::string& name, const Place& place) {
    AdhesiveSpec adhesive;
    adhesive.name = name;
    adhesive.place = place;
    adhesive.slot = fields.text("material", true);
    adhesive.spread = fields.formula("spread");
    adhesive.edge = fields.formula("edge");
    adhesive.width = fields.formula("width");
    adhesive.tape = fields.flag("tape");
    if (adhesive.tape && (fields.has("spread") || fields.has("edge")))
        fields.complaints().add(place, "spread and edge only go with glue, not with tape");
    if (!adhesive.tape && fields.has("width"))
        fields.complaints().add(place, "width only goes with tape = true",
                                "for glue along an edge give edge = \"5 mm\"");
    return adhesive;
}

} // namespace

void read_slots(TomlTable& top, Design& design) {
    const toml::table* table = top.table("materials");
    if (table == nullptr) return;
    TomlTable all(*table, top.titled("materials"), top.complaints());
    for (const std::string& name : keys_in_file_order(*table)) {
        SlotSpec slot = read_slot(all, *table->get(name), name);
        if (!is_name(name) || name == "cover" || name == "block" || name == "binding")
            top.complaints().add(
                slot.place, fmt::format("\"{}\" cannot name a material", name),
                formula_unit(name)
                    ? "it is a unit: choose another name"
                    : "use small letters, digits and _, but not cover, block or binding");
        if (const SlotSpec* before = named(design.slots, name);
            before != nullptr && slot.about.empty())
            slot.about = before->about;
        replace_or_add(design.slots, std::move(slot));
    }
}

void read_adhesives(TomlTable& top, Design& design) {
    const toml::table* table = top.table("adhesives");
    if (table == nullptr) return;
    TomlTable all(*table, top.titled("adhesives"), top.complaints());
    for (const std::string& name : keys_in_file_order(*table)) {
        const toml::table* details = all.table(name);
        if (details == nullptr) continue;
        TomlTable fields(*details, all.place(name).field, top.complaints());
        replace_or_add(design.adhesives, read_adhesive(fields, name, all.place(name)));
        fields.finish();
    }
}

} // namespace barrow::design
