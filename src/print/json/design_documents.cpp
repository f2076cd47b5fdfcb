#include "print/json/values.hpp"
#include "print/json_documents.hpp"

#include "base/error.hpp"

namespace barrow::print {
namespace {

Json part_json(const design::WorkedPart& part) {
    Json json{{"part", part.name}, {"material", part.material}, {"number", part.number}};
    switch (part.take) {
    case design::Take::piece: {
        json["width"] = millimetres(part.width.units());
        json["height"] = millimetres(part.height.units());
        json["joins"] = Json::array();
        for (const base::Length join : part.joining.at)
            json["joins"].push_back(millimetres(join.units()));
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
    return json;
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
    document["code"] = worked.code;
    document["name"] = worked.name;
    document["names"] = Json::array();
    for (const design::Explanation& e : worked.explanations)
        document["names"].push_back(
            {{"name", e.name}, {"formula", e.formula}, {"spelled", e.spelled}, {"value", e.value}});
    if (worked.cover) {
        Json cover{{"length", millimetres(worked.cover->length.units())},
                   {"height", millimetres(worked.cover->height.units())},
                   {"panels", Json::array()},
                   {"folds", Json::array()}};
        for (const design::WorkedPanel& panel : worked.cover->panels)
            cover["panels"].push_back({{"name", panel.name},
                                       {"start", millimetres(panel.start.units())},
                                       {"width", millimetres(panel.width.units())}});
        for (const base::Length fold : worked.cover->folds)
            cover["folds"].push_back(millimetres(fold.units()));
        document["cover"] = cover;
    }
    document["parts"] = Json::array();
    for (const design::WorkedPart& part : worked.parts)
        document["parts"].push_back(part_json(part));
    document["minutes_per_journal"] = number(base::to_decimal(worked.minutes_per_journal, 3));
    document["minutes_per_batch"] = number(base::to_decimal(worked.minutes_per_batch, 3));
    return finished(document);
}

} // namespace barrow::print
