#include "print/making/warnings.hpp"

#include "print/text/table.hpp"

namespace barrow::print {

std::string warning_text(const design::Warning& warning, const std::string& end) {
    const char* grade =
        warning.severity == design::Severity::stops ? "Cannot be put together: " : "Mind: ";
    return wrapped(grade + warning.text + end, page_width, 6) + "\n";
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
