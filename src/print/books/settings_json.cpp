#include "print/books/settings.hpp"

#include "print/json/values.hpp"

namespace barrow::print {

std::string document(const std::vector<workshop::SettingLine>& lines) {
    Json document = begin("settings");
    document["settings"] = Json::object();
    for (const workshop::SettingLine& line : lines) document["settings"][line.name] = line.value;
    return finished(document);
}

std::string check_document(const std::vector<std::string>& problems) {
    Json document = begin("check");
    document["ok"] = problems.empty();
    document["problems"] = problems;
    return finished(document);
}

} // namespace barrow::print
