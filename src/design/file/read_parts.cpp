#include "design/file/reader.hpp"

#include "base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace barrow::design {
namespace {

constexpr std::string_view forms = "a part has width and height, or length, or loops, or amount, "
                                   "or only a number";

/// Which of the five ways of using a material up this is, told by the formulas given.
void settle_take(const TomlTable& fields, PartSpec& part) {
    Complaints& complaints = fields.complaints();
    const bool piece = !part.width.empty() || !part.height.empty();
    const int ways = (piece ? 1 : 0) + (part.length.empty() ? 0 : 1) + (part.loops.empty() ? 0 : 1)
                     + (part.amount.empty() ? 0 : 1);
    // A formula that could not be read was complained of already; only the keys say what is absent.
    const auto any_key = [&](std::initializer_list<const char*> keys) {
        return std::any_of(keys.begin(), keys.end(),
                           [&](const char* key) { return fields.has(key); });
    };
    if (ways > 1)
        complaints.add(fields.place(), "it is not clear what the part is", std::string(forms));
    if (piece && (part.width.empty() || part.height.empty())
        && !(fields.has("width") && fields.has("height")))
        complaints.add(fields.place(), "a piece needs both width and height");
    if (ways == 0 && part.number.empty()
        && !any_key({"number", "width", "height", "length", "loops", "amount"}))
        complaints.add(fields.place(), "it is not said how much of the material it takes",
                       std::string(forms));
    part.take = Take::count;
    if (piece) {
        part.take = Take::piece;
    } else if (!part.length.empty()) {
        part.take = Take::length;
    } else if (!part.loops.empty()) {
        part.take = Take::loops;
    } else if (!part.amount.empty()) {
        part.take = Take::spread;
    }
    const bool joins = part.join.where != JoinSpec::Where::nowhere;
    if (part.take != Take::piece && ways > 0 && (part.turn || part.grain || joins))
        complaints.add(fields.place(), "turn, grain and join only go with width and height");
}

void read_turn(TomlTable& fields, PartSpec& part) {
    constexpr std::array<Turn, 3> turns = {Turn::none, Turn::half, Turn::quarter};
    if (const auto turn = fields.choice("turn", {"none", "half", "quarter"}))
        part.turn = turns[*turn];
    constexpr std::array<Grain, 2> grains = {Grain::width, Grain::height};
    if (const auto grain = fields.choice("grain", {"width", "height"})) part.grain = grains[*grain];
}

/// join = "none", "folds", "anywhere", or a list of folds: ["front/base", "back/second_base"].
void read_where(TomlTable& fields, JoinSpec& join) {
    using Where = JoinSpec::Where;
    const toml::node* node = fields.node("join");
    if (node == nullptr) return;
    join.folds.clear();
    if (node->is_array()) {
        join.where = Where::named_folds;
        join.folds = fields.texts("join");
        if (join.folds.empty()) fields.complaints().add(fields.place("join"), "no fold is named");
        return;
    }
    const std::string word = fields.text("join");
    if (word.find('/') != std::string::npos) {
        join.where = Where::named_folds;
        join.folds = {word};
        return;
    }
    constexpr std::array<Where, 3> wheres = {Where::nowhere, Where::folds, Where::anywhere};
    if (const auto where = fields.choice("join", {"none", "folds", "anywhere"}))
        join.where = wheres[*where];
}

void read_join(TomlTable& fields, const Design& design, PartSpec& part) {
    Complaints& complaints = fields.complaints();
    JoinSpec& join = part.join;
    read_where(fields, join);
    fields.change("overlap", join.overlap);
    fields.change("least_piece", join.least_piece);
    if (fields.has("no_join_on")) join.never_on = fields.texts("no_join_on");
    fields.change("from", part.from);
    const bool joins = join.where != JoinSpec::Where::nowhere;
    if ((joins || !join.never_on.empty()) && join.where != JoinSpec::Where::anywhere
        && !design.cover)
        complaints.add(fields.place("join"), "is at the folds, but the design has no [cover]");
    if (joins && join.overlap.empty() && !fields.has("overlap"))
        complaints.add(fields.place("join"), "needs an overlap beside it",
                       "for example overlap = \"8 mm\"");
    if (join.where == JoinSpec::Where::anywhere && join.least_piece.empty()
        && !fields.has("least_piece"))
        complaints.add(fields.place("join"), "\"anywhere\" needs a least_piece beside it",
                       "the narrowest piece you would still glue: least_piece = \"5 cm\"");
    const bool glued_overlap =
        std::any_of(part.glue.begin(), part.glue.end(), [](const GlueSpec& glue) {
            return std::find(glue.where.begin(), glue.where.end(), Glued::overlap)
                   != glue.where.end();
        });
    if (!joins && (!join.overlap.empty() || !join.least_piece.empty() || !join.never_on.empty()))
        complaints.add(fields.place(), "overlap, least_piece and no_join_on only go with a join",
                       "for example join = \"folds\"");
    if (!joins && glued_overlap)
        complaints.add(fields.place("glue"), "an overlap is glued, but the part is never joined");
}

/// Complains at the key itself, which is only at hand here.
void check_slot(const TomlTable& fields, const Design& design, const std::string& slot) {
    if (slot.empty() || named(design.slots, slot) != nullptr) return;
    std::vector<std::string> names;
    names.reserve(design.slots.size());
    for (const SlotSpec& other : design.slots) names.push_back(other.name);
    std::string hint = base::did_you_mean(slot, names);
    if (hint.empty())
        hint = names.empty() ? std::string("[materials] names nothing yet")
                             : fmt::format("[materials] names {}", fmt::join(names, ", "));
    fields.complaints().add(fields.place("material"),
                            fmt::format("\"{}\" is not named in [materials]", slot), hint);
}

void read_fields(TomlTable& fields, const Design& design, PartSpec& part) {
    fields.change("material", part.slot);
    check_slot(fields, design, part.slot);
    fields.change("about", part.about);
    fields.change("number", part.number);
    fields.change("width", part.width);
    fields.change("height", part.height);
    fields.change("length", part.length);
    fields.change("loops", part.loops);
    fields.change("amount", part.amount);
    read_turn(fields, part);
    if (fields.has("glue")) part.glue = read_glue(fields);
    read_join(fields, design, part);
    settle_take(fields, part);
}

void read_worth(TomlTable& fields, PartSpec& part) {
    std::string worth;
    fields.change("worth", worth);
    if (!worth.empty()) part.worth = base::read_rational(base::trimmed(worth));
    const bool wrong = !worth.empty() && (!part.worth || *part.worth < base::Rational(0));
    if (wrong)
        fields.complaints().add(fields.place("worth"),
                                fmt::format("\"{}\" is not an amount", worth),
                                "write it as a plain number of your currency: worth = \"0.60\"");
    if (!part.worth && worth.empty() && !fields.has("worth"))
        fields.complaints().add(fields.place(), "a filler needs a worth",
                                "what one is worth to you, in your currency: worth = \"0.60\"");
    if (part.take != Take::piece && part.take != Take::length)
        fields.complaints().add(fields.place(), "a filler is cut from what is left over",
                                "give it width and height, or a length");
    if (part.join.where != JoinSpec::Where::nowhere)
        fields.complaints().add(fields.place("join"), "a filler is never joined");
}

/// Reads one [[part]] or [[filler]]: new, in the place of the one of its name, or (`change`) that
/// one with some keys changed.
void read_one(const toml::table& table, std::string_view what, Design& design,
              std::vector<std::string>& here, Complaints& complaints) {
    const bool filler = what == "filler";
    std::vector<PartSpec>& list = filler ? design.fillers : design.parts;
    const auto changed = table["change"].value<std::string>();
    const auto name = table["name"].value<std::string>();
    TomlTable fields(table, fmt::format("{} \"{}\"", what, changed.value_or(name.value_or("?"))),
                     complaints);
    PartSpec part;
    if (fields.has("change")) {
        const std::string of = fields.text("change", true);
        const PartSpec* before = named(list, of);
        if (before == nullptr) {
            std::vector<std::string> names;
            names.reserve(list.size());
            for (const PartSpec& other : list) names.push_back(other.name);
            complaints.add(fields.place("change"),
                           fmt::format("there is no {} \"{}\" to change", what, of),
                           base::did_you_mean(of, names));
            return;
        }
        part = *before;
    } else {
        part.name = fields.text("name", true);
        part.slot = fields.text("material", true);
    }
    part.place = fields.place();
    read_fields(fields, design, part);
    if (filler) read_worth(fields, part);
    fields.finish();
    if (!part.name.empty() && std::find(here.begin(), here.end(), part.name) != here.end())
        complaints.add(fields.place("name"), fmt::format("two parts are named \"{}\"", part.name));
    here.push_back(part.name);
    replace_or_add(list, std::move(part));
}

} // namespace

void read_parts(TomlTable& top, Design& design) {
    std::vector<std::string> here;
    for (const std::string_view what : {"part", "filler"}) {
        const toml::array* list = top.array(what);
        if (list == nullptr) continue;
        for (const toml::node& node : *list) {
            if (const auto* table = node.as_table()) {
                read_one(*table, what, design, here, top.complaints());
            } else {
                top.complaints().add(top.place(what),
                                     fmt::format("a {} is written as [[{}]]", what, what));
            }
        }
    }
}

} // namespace barrow::design
