#include "base/error.hpp"

#include <utility>

namespace barrow::base {
namespace {

std::string line_of(const Problem& problem) {
    std::string text = problem.where;
    if (!text.empty()) text += ": ";
    text += problem.what;
    if (!problem.hint.empty()) text += " (" + problem.hint + ")";
    return text;
}

std::string text_of(const std::vector<Problem>& problems) {
    std::string text;
    for (const Problem& problem : problems) {
        if (!text.empty()) text += '\n';
        text += line_of(problem);
    }
    return text;
}

} // namespace

Error::Error(Kind kind, std::vector<Problem> problems)
    : kind_(kind), problems_(std::move(problems)), text_(text_of(problems_)) {}

Error::Error(Kind kind, std::string what, std::string hint)
    : Error(kind, std::vector<Problem>{{{}, std::move(what), std::move(hint)}}) {}

Error refused(std::string what, std::string hint) {
    return {Kind::refused, std::move(what), std::move(hint)};
}

Error bad_input(std::string where, std::string what, std::string hint) {
    return {Kind::bad_input,
            std::vector<Problem>{{std::move(where), std::move(what), std::move(hint)}}};
}

Error broken(const std::string& what) {
    return {Kind::machine, "the program found itself in the wrong: " + what,
            "please keep the shop file and report this"};
}

} // namespace barrow::base
