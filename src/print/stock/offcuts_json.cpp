#include "print/stock/offcuts.hpp"

#include "print/json/values.hpp"

namespace barrow::print {

std::string document(const workshop::OffcutBox& box) {
    Json document = begin("offcuts");
    document["currency"] = box.settings.currency.code;
    document["offcuts"] = Json::array();
    for (const workshop::OffcutLine& line : box.lines)
        document["offcuts"].push_back(
            {{"code", line.there.offcut.code},
             {"material", line.material},
             {"form", base::name_of(line.form)},
             {"size", size_json(line.form, line.there.offcut.size)},
             {"value", base::to_text(line.there.value, box.settings.currency)},
             {"kept_on", base::to_text(line.there.offcut.kept_on)},
             {"age_days", line.age_days},
             {"place", line.there.offcut.place}});
    document["value"] = base::to_text(box.value, box.settings.currency);
    return finished(document);
}

} // namespace barrow::print
