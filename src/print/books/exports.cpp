#include "print/books/exports.hpp"

#include "print/csv/csv_text.hpp"
#include "print/json/values.hpp"

namespace barrow::print {

std::string csv(const workshop::ExportedTable& table) {
    CsvText text(table.columns);
    for (const auto& row : table.rows) text.row({row.begin(), row.end()});
    return text.text();
}

std::string document(const workshop::ExportedTable& table) {
    Json document = begin("export");
    document["table"] = table.what;
    document["rows"] = Json::array();
    for (const auto& row : table.rows) {
        Json json = Json::object();
        for (std::size_t i = 0; i < row.size(); ++i) json[table.columns[i]] = row[i];
        document["rows"].push_back(json);
    }
    return finished(document);
}

} // namespace barrow::print
