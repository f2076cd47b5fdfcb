#include "design/file/toml_table.hpp"

#include "base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace barrow::design {
namespace {

std::string type_name(const toml::node& node) {
    switch (node.type()) {
    case toml::node_type::string: return "text";
    case toml::node_type::integer: return "a whole number";
    case toml::node_type::floating_point: return "a number with a decimal point";
    case toml::node_type::boolean: return "true or false";
    case toml::node_type::table: return "a table";
    case toml::node_type::array: return "a list";
    case toml::node_type::date:
    case toml::node_type::time:
    case toml::node_type::date_time: return "a date or time";
    case toml::node_type::none: break;
    }
    return "nothing";
}

} // namespace

void Complaints::add(const Place& place, std::string what, std::string hint) {
    problems.push_back({place.at(), std::move(what), std::move(hint)});
}

void Complaints::add(const base::Error& error) {
    for (const base::Problem& problem : error.problems()) problems.push_back(problem);
}

void Complaints::throw_if_any() const {
    // What a family says once is read once for each of its variants: told once all the same.
    std::vector<base::Problem> told;
    for (const base::Problem& problem : problems) {
        const bool before = std::any_of(told.begin(), told.end(), [&](const base::Problem& other) {
            return other.where == problem.where && other.what == problem.what;
        });
        if (!before) told.push_back(problem);
    }
    if (!told.empty()) throw base::Error(base::Kind::bad_input, std::move(told));
}

TomlTable::TomlTable(const toml::table& table, std::string title, Complaints& complaints)
    : table_(table), title_(std::move(title)), complaints_(complaints) {}

Place TomlTable::place_of(const toml::node& node, const std::string& field) const {
    const auto at = [](const toml::node& where) {
        const auto& begin = where.source().begin;
        return std::pair(static_cast<int>(begin.line), static_cast<int>(begin.column));
    };
    const auto [line, column] = at(node);
    Place place{complaints_.file, line, column, field};
    if (const toml::table* table = node.as_table()) {
        std::map<std::string, std::pair<int, int>, std::less<>> keys;
        for (const auto& [key, value] : *table) keys.emplace(std::string(key.str()), at(value));
        place.keys = std::make_shared<const decltype(keys)>(std::move(keys));
    }
    return place;
}

std::string TomlTable::titled(std::string_view key) const {
    if (title_.empty()) return fmt::format("[{}]", key);
    return fmt::format("{}.{}]", title_.substr(0, title_.size() - 1), key);
}

Place TomlTable::place(std::string_view key) const {
    const toml::node* node = key.empty() ? nullptr : table_.get(key);
    std::string field = title_;
    if (!key.empty()) field += (field.empty() ? "" : " ") + std::string(key);
    return place_of(node != nullptr ? *node : table_, field);
}

const toml::node* TomlTable::find(std::string_view key, bool required) {
    asked_.emplace(key);
    const toml::node* node = table_.get(key);
    if (node == nullptr && required)
        complaints_.add(place(), fmt::format("the key \"{}\" is missing", key));
    return node;
}

std::string TomlTable::text(std::string_view key, bool required) {
    const toml::node* node = find(key, required);
    if (node == nullptr) return {};
    if (const auto value = node->value_exact<std::string>()) {
        if (required && base::trimmed(*value).empty()) complaints_.add(place(key), "is empty");
        return *value;
    }
    complaints_.add(place(key), fmt::format("is {}; expected text", type_name(*node)));
    return {};
}

bool TomlTable::flag(std::string_view key) {
    const toml::node* node = find(key, false);
    if (node == nullptr) return false;
    if (const auto value = node->value_exact<bool>()) return *value;
    complaints_.add(place(key), fmt::format("is {}; expected true or false", type_name(*node)));
    return false;
}

Formula TomlTable::formula(std::string_view key, bool required) {
    const toml::node* node = find(key, required);
    if (node == nullptr) return {};
    return formula_of(*node, place(key).field);
}

Formula TomlTable::condition(std::string_view key) {
    const toml::node* node = find(key, true);
    if (node == nullptr) return {};
    return parsed(*node, place(key).field, parse_condition);
}

Formula TomlTable::formula_of(const toml::node& node, const std::string& field) {
    return parsed(node, field, parse_formula);
}

Formula TomlTable::parsed(const toml::node& node, const std::string& field, Parse parse) {
    Place at = place_of(node, field);
    try {
        if (const auto number = node.value_exact<std::int64_t>())
            return parse(std::to_string(*number), at);
        if (const auto text = node.value_exact<std::string>()) {
            ++at.column; // the formula begins behind the quotation mark
            return parse(*text, at);
        }
    } catch (const base::Error& error) {
        complaints_.add(error);
        return {};
    }
    if (node.is_floating_point())
        complaints_.add(at, "is a number with a decimal point, which is not exact",
                        "write it as text, in quotation marks: \"2.5\"");
    else
        complaints_.add(at, fmt::format("is {}; expected a formula as text", type_name(node)),
                        "write it in quotation marks: \"2 * envelope_long\"");
    return {};
}

void TomlTable::change(std::string_view key, Formula& formula) {
    if (const toml::node* node = find(key, false)) formula = formula_of(*node, place(key).field);
}

void TomlTable::change(std::string_view key, std::string& text) {
    if (find(key, false) != nullptr) text = this->text(key);
}

void TomlTable::change(std::string_view key, bool& flag) {
    if (find(key, false) != nullptr) flag = this->flag(key);
}

std::vector<std::string> TomlTable::texts(std::string_view key) {
    const toml::node* node = find(key, false);
    if (node == nullptr) return {};
    std::vector<std::string> result;
    const auto take = [&](const toml::node& one) {
        if (const auto text = one.value_exact<std::string>()) {
            result.push_back(*text);
        } else {
            complaints_.add(place_of(one, place(key).field),
                            fmt::format("is {}; expected text", type_name(one)));
        }
    };
    if (const auto* list = node->as_array()) {
        for (const toml::node& one : *list) take(one);
    } else {
        take(*node);
    }
    return result;
}

std::optional<std::size_t> TomlTable::choice(std::string_view key,
                                             const std::vector<std::string>& known) {
    if (find(key, false) == nullptr) return std::nullopt;
    const std::string given = text(key);
    const auto found = std::find(known.begin(), known.end(), given);
    if (found != known.end()) return static_cast<std::size_t>(found - known.begin());
    complaints_.add(place(key), fmt::format("there is no {} \"{}\"", key, given),
                    fmt::format("write {}", fmt::join(known, " or ")));
    return std::nullopt;
}

const toml::table* TomlTable::table(std::string_view key) {
    const toml::node* node = find(key, false);
    if (node == nullptr) return nullptr;
    if (const auto* table = node->as_table()) return table;
    complaints_.add(place(key), fmt::format("is {}; expected a table", type_name(*node)));
    return nullptr;
}

const toml::array* TomlTable::array(std::string_view key) {
    const toml::node* node = find(key, false);
    if (node == nullptr) return nullptr;
    if (const auto* array = node->as_array()) return array;
    complaints_.add(place(key), fmt::format("is {}; expected a list", type_name(*node)));
    return nullptr;
}

void TomlTable::finish() {
    const std::vector<std::string> known(asked_.begin(), asked_.end());
    for (const auto& [key, node] : table_) {
        if (asked_.count(key.str()) != 0) continue;
        std::string hint = base::did_you_mean(key.str(), known);
        if (hint.empty()) hint = fmt::format("known here: {}", fmt::join(known, ", "));
        Place at = place_of(node, title_);
        complaints_.add(at, fmt::format("there is no key \"{}\"", key.str()), hint);
    }
}

std::vector<std::string> keys_in_file_order(const toml::table& table) {
    std::vector<std::pair<toml::source_position, std::string>> keys;
    for (const auto& [key, node] : table) keys.emplace_back(key.source().begin, key.str());
    std::sort(keys.begin(), keys.end(),
              [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<std::string> names;
    names.reserve(keys.size());
    for (auto& [position, name] : keys) names.push_back(std::move(name));
    return names;
}

} // namespace barrow::design
