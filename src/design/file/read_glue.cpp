#include "design/file/reader.hpp"

#include "base/text.hpp"

#include <fmt/format.h>

#include <array>
#include <utility>

namespace barrow::design {
namespace {

struct GluedWord {
    std::string_view word;
    std::vector<Glued> means;
};

const std::vector<GluedWord>& words() {
    static const std::vector<GluedWord> all = {
        {"area", {Glued::area}},
        {"edges", {Glued::left, Glued::right, Glued::top, Glued::bottom}},
        {"left", {Glued::left}},
        {"right", {Glued::right}},
        {"top", {Glued::top}},
        {"bottom", {Glued::bottom}},
        {"overlap", {Glued::overlap}},
    };
    return all;
}

void read_words(TomlTable& table, const std::string& adhesive, GlueSpec& glue) {
    for (const std::string& given : table.texts(adhesive)) {
        std::vector<std::string> known;
        bool found = false;
        for (const GluedWord& word : words()) {
            known.emplace_back(word.word);
            if (word.word != given) continue;
            glue.where.insert(glue.where.end(), word.means.begin(), word.means.end());
            found = true;
        }
        if (found) continue;
        std::string hint = base::did_you_mean(given, known);
        if (hint.empty()) hint = fmt::format("write {}", fmt::join(known, ", "));
        table.complaints().add(glue.place, fmt::format("nothing is glued at \"{}\"", given), hint);
    }
    for (std::size_t i = 0; i < glue.where.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
            if (glue.where[i] == glue.where[j]) {
                table.complaints().add(glue.place, "the same place is glued twice");
                return;
            }
}

} // namespace

std::vector<GlueSpec> read_glue(TomlTable& fields) {
    std::vector<GlueSpec> all;
    const toml::table* table = fields.table("glue");
    if (table == nullptr) return all;
    TomlTable glues(*table, fields.place("glue").field, fields.complaints());
    for (const std::string& adhesive : keys_in_file_order(*table)) {
        GlueSpec glue;
        glue.adhesive = adhesive;
        glue.place = glues.place(adhesive);
        read_words(glues, adhesive, glue);
        all.push_back(std::move(glue));
    }
    return all;
}

} // namespace barrow::design
