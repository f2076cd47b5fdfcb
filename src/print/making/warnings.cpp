#include "print/making/warnings.hpp"

namespace barrow::print {

Text warning_text(const design::Warning& warning, const std::string& end) {
    if (warning.severity == design::Severity::stops)
        return {"Cannot be put together: " + warning.text + end, 6};
    return note(warning.text + end);
}

void add_warnings(Blocks& blocks, const std::vector<design::Warning>& warnings) {
    bool first = true;
    for (const design::Warning& warning : warnings) {
        if (first)
            blocks.add(warning_text(warning));
        else
            blocks.under(warning_text(warning));
        first = false;
    }
}

void put_warnings(Json& document, const std::vector<design::Warning>& warnings) {
    document["warnings"] = Json::array();
    document["stops"] = Json::array();
    for (const design::Warning& warning : warnings) {
        document["warnings"].push_back(warning.text);
        if (warning.severity == design::Severity::stops) document["stops"].push_back(warning.text);
    }
}

} // namespace barrow::print
