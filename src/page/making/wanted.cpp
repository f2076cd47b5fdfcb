#include "page/making/wanted.hpp"

#include "base/error.hpp"
#include "base/text.hpp"

#include <fmt/format.h>

#include <charconv>

namespace barrow::page {
namespace {

constexpr std::int64_t most_journals = 1'000'000;

std::int64_t journals_of(const std::string& typed, const std::string& field) {
    const std::string text(base::trimmed(typed));
    std::int64_t number = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), number);
    if (read.ec != std::errc() || read.ptr != text.data() + text.size() || number < 0
        || number > most_journals)
        throw base::bad_input(field, fmt::format("\"{}\" is not a number of journals", typed),
                              "a whole number, like 12");
    return number;
}

} // namespace

design::Changes changes_in(const Values& values) {
    return {values.under("set."), values.under("use.")};
}

std::vector<workshop::WantedRun> run_in(const Values& values, const std::string& design) {
    const std::string& typed = values.get("make");
    const std::int64_t journals = typed.empty() ? 1 : journals_of(typed, "make");
    if (journals == 0) throw base::bad_input("make", "no journals are to be made", "at least 1");
    return {{design, journals, changes_in(values)}};
}

std::vector<workshop::WantedRun> runs_in(const Values& values) {
    std::vector<workshop::WantedRun> runs;
    for (const auto& [name, value] : values.list()) {
        if (name.compare(0, 5, "make.") != 0 || value.empty()) continue;
        const std::int64_t journals = journals_of(value, name);
        if (journals > 0) runs.push_back({name.substr(5), journals, {}});
    }
    return runs;
}

} // namespace barrow::page
