#include "design/file/reader.hpp"

#include "base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace barrow::design {
namespace {

/// Calls `read` with each table of a list of tables.
template <typename Read>
void each_table(TomlTable& top, std::string_view key, Read read) {
    const toml::array* list = top.array(key);
    if (list == nullptr) return;
    for (const toml::node& node : *list) {
        if (const auto* table = node.as_table()) {
            read(*table);
        } else {
            top.complaints().add(top.place(key),
                                 fmt::format("a {} is written as [[{}]]", key, key));
        }
    }
}

template <typename List>
bool take_out(List& list, const std::string& name, std::vector<std::string>& known) {
    const auto gone = std::remove_if(list.begin(), list.end(),
                                     [&](const auto& item) { return item.name == name; });
    const bool found = gone != list.end();
    list.erase(gone, list.end());
    for (const auto& item : list) known.push_back(item.name);
    return found;
}

} // namespace

void read_operations(TomlTable& top, Design& design) {
    std::vector<std::string> here;
    each_table(top, "operation", [&](const toml::table& table) {
        const auto name = table["name"].value<std::string>();
        TomlTable fields(table, fmt::format("operation \"{}\"", name.value_or("?")),
                         top.complaints());
        Operation operation;
        operation.place = fields.place();
        operation.name = fields.text("name", true);
        operation.minutes = fields.formula("minutes", true);
        if (const auto per = fields.choice("per", {"journal", "batch"}))
            operation.per_batch = *per == 1;
        fields.finish();
        if (std::find(here.begin(), here.end(), operation.name) != here.end())
            top.complaints().add(fields.place("name"),
                                 fmt::format("two operations are named \"{}\"", operation.name));
        here.push_back(operation.name);
        replace_or_add(design.operations, std::move(operation));
    });
}

void read_checks(TomlTable& top, Design& design) {
    each_table(top, "check", [&](const toml::table& table) {
        TomlTable fields(table, "check", top.complaints());
        CheckSpec check;
        check.place = fields.place();
        check.holds = fields.condition("that");
        check.say = fields.text("say", true);
        if (fields.flag("stops")) check.severity = Severity::stops;
        fields.finish();
        design.checks.push_back(std::move(check));
    });
}

void read_without(TomlTable& table, Design& design) {
    for (const std::string& name : table.texts("without")) {
        std::vector<std::string> known;
        bool found = take_out(design.parts, name, known);
        found = take_out(design.fillers, name, known) || found;
        found = take_out(design.operations, name, known) || found;
        if (design.block) found = take_out(design.block->layers, name, known) || found;
        if (!found)
            table.complaints().add(table.place("without"),
                                   fmt::format("there is no \"{}\" to leave out", name),
                                   base::did_you_mean(name, known));
    }
}

} // namespace barrow::design
