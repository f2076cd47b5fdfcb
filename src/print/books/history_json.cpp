#include "print/books/history.hpp"

#include "print/books/history_words.hpp"
#include "print/json/values.hpp"

namespace barrow::print {
namespace {

using workshop::History;
using workshop::HistoryLine;
using workshop::Subject;

const char* change_name(int change) {
    if (change == 0) return "";
    return change > 0 ? "in" : "out";
}

/// What was there once the line was entered; of journals and batches there are no units.
Json after_json(const HistoryLine& line, const History& history) {
    Json after = {{"value", base::to_text(line.after.value, history.settings.currency)}};
    if (history.of == Subject::journal) {
        after["quantity"] = line.after.quantity;
    } else if (!line.material.empty()) {
        after["quantity"] = quantity_number(line.form, line.after.quantity);
    }
    if (history.of == Subject::material || history.of == Subject::lot) {
        after["units"] = history.form == base::Form::bulk
                             ? quantity_number(history.form, line.after.units)
                             : Json(line.after.units);
        after["in_offcuts"] = quantity_number(history.form, line.after.offcuts);
    }
    return after;
}

Json line_json(const HistoryLine& line, const History& history) {
    const base::Currency& currency = history.settings.currency;
    Json json = {{"entry", line.posting.id},
                 {"day", base::to_text(line.posting.made_on)},
                 {"recorded_at", line.posting.recorded_at},
                 {"who", line.posting.who},
                 {"note", line.posting.note},
                 {"what", history_words(line, history)},
                 {"movement", line.from_kind.empty() ? "" : line.kind},
                 {"change", change_name(line.change)},
                 {"value", base::to_text(line.value, currency)}};
    if (!line.material.empty()) {
        json["material"] = line.material;
        json["quantity"] = quantity_number(line.form, line.quantity);
        json["unit"] = quantity_unit(line.form, line.bulk_is_mass);
    }
    if (line.price) json["price"] = base::to_text(*line.price, currency);
    if (line.posting.reverses) json["reverses"] = *line.posting.reverses;
    json["after"] = after_json(line, history);
    return json;
}

} // namespace

std::string document(const History& history) {
    Json document = begin("history");
    document["of"] = workshop::name_of(history.of);
    document["code"] = history.code;
    document["name"] = history.name;
    document["currency"] = history.settings.currency.code;
    document["entries"] = Json::array();
    for (const HistoryLine& line : history.lines)
        document["entries"].push_back(line_json(line, history));
    return finished(document);
}

} // namespace barrow::print
