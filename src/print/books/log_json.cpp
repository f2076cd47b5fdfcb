#include "print/books/log.hpp"

#include "print/json/values.hpp"

namespace barrow::print {

std::string document(const std::vector<workshop::LogLine>& lines) {
    Json document = begin("log");
    document["entries"] = Json::array();
    for (const workshop::LogLine& line : lines)
        document["entries"].push_back(
            {{"entry", line.posting.id},
             {"what", line.posting.kind},
             {"day", base::to_text(line.posting.made_on)},
             {"recorded_at", line.posting.recorded_at},
             {"who", line.posting.who},
             {"note", line.posting.note},
             {"reverses", line.posting.reverses ? Json(*line.posting.reverses) : Json(nullptr)},
             {"reversed", !line.reversed_by.empty()},
             {"movements", line.movements}});
    return finished(document);
}

} // namespace barrow::print
