#include "print/stock/stocktake.hpp"

#include "print/json/values.hpp"

namespace barrow::print {

std::string document(const workshop::CountSheet& sheet) {
    Json document = begin("stocktake");
    document["currency"] = sheet.settings.currency.code;
    document["stocktake"] = sheet.stocktake.number;
    document["begun"] = base::to_text(sheet.stocktake.started_on);
    document["place"] = sheet.stocktake.place;
    document["lines"] = Json::array();
    for (const workshop::CountLine& line : sheet.lines)
        document["lines"].push_back(
            {{"code", line.code},
             {"offcut", line.offcut},
             {"counted", units_number(line.form, line.counted)},
             {"in_book", units_number(line.form, line.in_book)},
             {"missing_value", base::to_text(line.value, sheet.settings.currency)}});
    document["not_counted"] = sheet.not_counted;
    return finished(document);
}

} // namespace barrow::print
