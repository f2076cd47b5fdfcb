#include "design/file/reader.hpp"

#include "base/text.hpp"
#include "design/binding/binding.hpp"

#include <fmt/format.h>

#include <utility>

namespace barrow::design {
namespace {

const BindingKind* read_kind(TomlTable& table, const BindingKind* before) {
    if (before != nullptr && !table.has("kind")) return before;
    const std::string given = table.text("kind", true);
    if (const BindingKind* kind = find_binding(given)) return kind;
    std::vector<std::string> names;
    for (const BindingKind* kind : binding_kinds()) names.emplace_back(kind->name);
    std::string hint = base::did_you_mean(given, names);
    if (hint.empty()) hint = fmt::format("there are {}", fmt::join(names, ", "));
    if (!given.empty())
        table.complaints().add(table.place("kind"),
                               fmt::format("there is no binding \"{}\"", given), hint);
    return nullptr;
}

void read_keys(TomlTable& table, BindingSpec& spec) {
    for (const BindingKey& key : spec.kind->keys) {
        const std::string name(key.name);
        if (key.is == BindingKey::Is::slot) {
            table.change(name, spec.slots[name]);
        } else {
            table.change(name, spec.given[name]);
            if (spec.given[name].empty()) spec.given.erase(name);
        }
        const bool given =
            key.is == BindingKey::Is::slot ? !spec.slots[name].empty() : spec.given.count(name) > 0;
        if (key.needed && !given && !table.has(name))
            table.complaints().add(table.place(), fmt::format("the key \"{}\" is missing", name),
                                   std::string(key.about));
    }
}

} // namespace

void read_binding(TomlTable& top, Design& design) {
    const toml::table* table = top.table("binding");
    if (table == nullptr) return;
    TomlTable fields(*table, top.titled("binding"), top.complaints());
    BindingSpec spec = design.binding.value_or(BindingSpec{});
    const BindingKind* kind = read_kind(fields, spec.kind);
    if (kind == nullptr) return; // its keys are not known
    if (kind != spec.kind) spec = BindingSpec{};
    spec.kind = kind;
    spec.place = fields.place();
    fields.change("panel", spec.panel);
    read_keys(fields, spec);
    fields.finish();
    design.binding = std::move(spec);
}

} // namespace barrow::design
