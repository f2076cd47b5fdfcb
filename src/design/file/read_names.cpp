#include "design/file/reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace barrow::design {
namespace {

constexpr std::size_t longest_name = 40;

bool is_small(char c) {
    return c >= 'a' && c <= 'z';
}
bool is_figure(char c) {
    return c >= '0' && c <= '9';
}

bool check_name(const std::string& name, const Place& place, Complaints& complaints) {
    if (is_name(name) && name != "variant")
        return true; // a batch keeps its variant under that name
    complaints.add(place, fmt::format("\"{}\" cannot be a name in formulas", name),
                   formula_unit(name)
                       ? "it is a unit"
                       : "begin with a small letter; then small letters, digits and _");
    return false;
}

/// A formula without names, worked out; nothing (and a complaint) when it cannot be.
std::optional<Quantity> constant(const Formula& formula, Complaints& complaints) {
    if (formula.empty()) return std::nullopt;
    const Lookup no_names = [&](std::string_view name, std::size_t offset) -> Quantity {
        throw base::bad_input(formula.place().at(offset),
                              fmt::format("\"{}\" cannot be used in a parameter", name),
                              "parameters are plain values; use [let] for formulas over them");
    };
    try {
        return evaluate(formula, no_names);
    } catch (const base::Error& error) {
        complaints.add(error);
        return std::nullopt;
    }
}

void read_details(const toml::table& table, Parameter& parameter, Complaints& complaints,
                  bool is_new) {
    TomlTable details(table, parameter.place.field, complaints);
    if (const auto usual = constant(details.formula("usual", is_new), complaints))
        parameter.usual = *usual;
    details.change("about", parameter.about);
    if (const auto least = constant(details.formula("least"), complaints)) parameter.least = least;
    if (const auto most = constant(details.formula("most"), complaints)) parameter.most = most;
    details.change("whole", parameter.whole);
    details.finish();
}

void check_limits(const Parameter& parameter, Complaints& complaints) {
    for (const auto& limit : {parameter.least, parameter.most})
        if (limit && limit->dimension != parameter.usual.dimension)
            complaints.add(parameter.place, fmt::format("the usual value is {}, but a limit is {}",
                                                        describe(parameter.usual.dimension),
                                                        describe(limit->dimension)));
}

} // namespace

bool is_name(std::string_view text) {
    if (text.empty() || text.size() > longest_name || !is_small(text[0]) || formula_unit(text))
        return false;
    return std::all_of(text.begin(), text.end(),
                       [](char c) { return is_small(c) || is_figure(c) || c == '_'; });
}

bool is_code(std::string_view text) {
    if (text.empty() || text.size() > longest_name) return false;
    return std::all_of(text.begin(), text.end(), [](char c) {
        return is_small(c) || (c >= 'A' && c <= 'Z') || is_figure(c) || c == '-' || c == '_';
    });
}

void read_parameters(TomlTable& top, Design& design) {
    const toml::table* table = top.table("parameters");
    if (table == nullptr) return;
    Complaints& complaints = top.complaints();
    TomlTable all(*table, top.titled("parameters"), complaints);
    for (const std::string& name : keys_in_file_order(*table)) {
        const Place place = all.place(name);
        if (!check_name(name, place, complaints)) continue;
        const Parameter* before = named(design.parameters, name);
        Parameter parameter = before != nullptr ? *before : Parameter{};
        parameter.name = name;
        parameter.place = place;
        const toml::node& node = *table->get(name);
        if (const auto* details = node.as_table()) {
            read_details(*details, parameter, complaints, before == nullptr);
        } else if (const auto value = constant(all.formula_of(node, place.field), complaints)) {
            parameter.usual = *value;
        }
        check_limits(parameter, complaints);
        replace_or_add(design.parameters, std::move(parameter));
    }
}

void read_definitions(TomlTable& top, Design& design) {
    const toml::table* table = top.table("let");
    if (table == nullptr) return;
    TomlTable all(*table, top.titled("let"), top.complaints());
    for (const std::string& name : keys_in_file_order(*table)) {
        if (!check_name(name, all.place(name), top.complaints())) continue;
        replace_or_add(design.definitions, {name, all.formula(name, true)});
    }
}

} // namespace barrow::design
