#include "page/frame/visit.hpp"

#include <fmt/format.h>

namespace barrow::page {

std::string show(const Visit& visit, Form form) {
    if (!visit.problems.empty() && form.action == visit.request.path) {
        form.fill(visit.fields);
        form.blame(visit.problems);
    }
    return html(form);
}

Response answer(const Visit& visit, Room room, const std::string& title, std::string body) {
    return page_of({room, title, visit.done, std::move(body), !visit.problems.empty()});
}

std::string counted(std::int64_t number, const std::string& one, const std::string& many) {
    return fmt::format("{} {}", number, number == 1 ? one : many);
}

} // namespace barrow::page
