#include "print/making/designs.hpp"

#include "print/json/values.hpp"
#include "print/making/warnings.hpp"

#include "base/error.hpp"

#include <array>

namespace barrow::print {
namespace {

Json part_json(const design::WorkedPart& part) {
    Json json{{"part", part.name},
              {"slot", part.slot},
              {"material", part.material.empty() ? Json() : Json(part.material)},
              {"number", part.number}};
    switch (part.take) {
    case design::Take::piece: {
        json["width"] = millimetres(part.width.units());
        json["height"] = millimetres(part.height.units());
        json["joins"] = Json::array();
        for (const base::Length join : part.joining.at)
            json["joins"].push_back(millimetres(join.units()));
        json["join_anywhere"] = part.joining.anywhere;
        break;
    }
    case design::Take::length: json["length"] = millimetres(part.length.units()); break;
    case design::Take::loops: json["loops"] = part.loops; break;
    case design::Take::spread:
        json["amount"] = number(base::to_decimal(part.amount, 3));
        json["unit"] = part.amount_is_mass ? "g" : "ml";
        break;
    case design::Take::count: break;
    }
    if (part.worth) json["worth"] = number(base::to_decimal(*part.worth, 2));
    return json;
}

Json lengths_json(const std::vector<base::Length>& lengths) {
    Json json = Json::array();
    for (const base::Length length : lengths) json.push_back(millimetres(length.units()));
    return json;
}

Json maybe_length(const std::optional<base::Length>& length) {
    return length ? millimetres(length->units()) : Json();
}

const char* name_of(design::Role role) {
    switch (role) {
    case design::Role::face: return "face";
    case design::Role::base: return "base";
    case design::Role::flap: return "flap";
    }
    throw base::broken("a panel of no role");
}

Json cover_json(const design::WorkedCover& cover) {
    Json json{{"length", millimetres(cover.length.units())},
              {"height", millimetres(cover.height.units())},
              {"panels", Json::array()},
              {"folds", lengths_json(cover.folds)},
              {"scores", Json::array()},
              {"finished", millimetres(cover.finished.units())},
              {"open", millimetres(cover.open.units())},
              {"closed_width", maybe_length(cover.closed_width)},
              {"closed_thickness", maybe_length(cover.closed_thickness)}};
    for (const design::WorkedPanel& panel : cover.panels)
        json["panels"].push_back({{"name", panel.name},
                                  {"start", millimetres(panel.start.units())},
                                  {"width", millimetres(panel.width.units())},
                                  {"is", name_of(panel.role)}});
    for (const design::Score& score : cover.scores)
        json["scores"].push_back({{"between", {score.left, score.right}},
                                  {"from_left", millimetres(score.from_left.units())},
                                  {"from_right", millimetres(score.from_right.units())},
                                  {"allowance", millimetres(score.allowance.units())},
                                  {"closes", score.fold_out ? "out" : "in"}});
    return json;
}

Json block_json(const design::WorkedBlock& block) {
    Json json{{"empty", millimetres(block.empty.units())},
              {"thickness", millimetres(block.thickness.units())},
              {"layers", Json::array()}};
    for (const design::WorkedLayer& layer : block.layers)
        json["layers"].push_back({{"name", layer.name},
                                  {"thickness", millimetres(layer.thickness.units())},
                                  {"filling", layer.filling}});
    return json;
}

Json binding_json(const design::WorkedBinding& binding) {
    return {{"kind", binding.kind},
            {"mark", binding.mark.empty() ? Json() : Json(binding.mark)},
            {"marks", lengths_json(binding.marks)},
            {"edge", millimetres(binding.edge.units())},
            {"setback", maybe_length(binding.setback)},
            {"hole", maybe_length(binding.hole)},
            {"panel", binding.panel.empty() ? Json() : Json(binding.panel)},
            {"notes", binding.notes}};
}

Json slot_json(const design::WorkedSlot& slot) {
    const auto maybe = [](const std::string& text) { return text.empty() ? Json() : Json(text); };
    constexpr std::array<const char*, 3> sames = {"piece", "journal", "run"};
    return {{"slot", slot.name},
            {"material", maybe(slot.material)},
            {"collection", maybe(slot.collection)},
            {"any_of", slot.any_of},
            {"same", sames.at(static_cast<std::size_t>(slot.same))},
            {"differs_from", slot.differs_from},
            {"reverse_of", maybe(slot.reverse_of)},
            {"pinned", slot.pinned},
            {"only_offcuts", slot.offcuts_only}};
}

/// The numbers of a design, in a document begun.
void add_numbers_json(Json& document, const design::Worked& worked) {
    document["code"] = worked.code;
    document["name"] = worked.name;
    document["names"] = Json::array();
    for (const design::Explanation& e : worked.explanations)
        document["names"].push_back({{"name", e.name},
                                     {"formula", e.formula},
                                     {"spelled", e.spelled},
                                     {"value", e.value},
                                     {"group", e.group}});
    if (worked.cover) document["cover"] = cover_json(*worked.cover);
    if (worked.block) document["block"] = block_json(*worked.block);
    if (worked.binding) document["binding"] = binding_json(*worked.binding);
    put_warnings(document, worked.warnings);
    document["not_known"] = worked.not_known;
}

} // namespace

std::string document(const std::vector<store::StoredDesign>& designs) {
    Json document = begin("designs");
    document["designs"] = Json::array();
    for (const store::StoredDesign& design : designs)
        document["designs"].push_back({{"code", design.code},
                                       {"name", design.name},
                                       {"text", design.number},
                                       {"brought_on", base::to_text(design.brought_on)},
                                       {"file", design.file}});
    return finished(document);
}

std::string document(const design::Worked& worked) {
    Json document = begin("design");
    add_numbers_json(document, worked);
    document["slots"] = Json::array();
    for (const design::WorkedSlot& slot : worked.slots)
        document["slots"].push_back(slot_json(slot));
    document["parts"] = Json::array();
    for (const design::WorkedPart& part : worked.parts)
        document["parts"].push_back(part_json(part));
    document["fillers"] = Json::array();
    for (const design::WorkedPart& part : worked.fillers)
        document["fillers"].push_back(part_json(part));
    document["minutes_per_journal"] = number(base::to_decimal(worked.minutes_per_journal, 3));
    document["minutes_per_batch"] = number(base::to_decimal(worked.minutes_per_batch, 3));
    return finished(document);
}

std::string calculation_document(const design::Worked& worked) {
    Json document = begin("calculation");
    add_numbers_json(document, worked);
    return finished(document);
}

} // namespace barrow::print
