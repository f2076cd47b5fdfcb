#pragma once

#include "base/error.hpp"
#include "design/formula/formula.hpp"

#include <toml++/toml.h>

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace barrow::design {

/// Gathers the problems of one file, so that a maker sees all of them at once.
struct Complaints {
    std::string file;
    std::vector<base::Problem> problems;

    void add(const Place& place, std::string what, std::string hint = {});
    /// The problems of an error caught on the way.
    void add(const base::Error& error);
    /// Throws base::Error (Kind::bad_input) with everything gathered, if anything was.
    void throw_if_any() const;
};

/// Reads one TOML table strictly: every key asked for is remembered, and `finish` complains of
/// those never asked for. Values of the wrong type become complaints, never silent defaults.
class TomlTable {
public:
    TomlTable(const toml::table& table, std::string title, Complaints& complaints);

    bool has(std::string_view key) const { return table_.contains(key); }
    std::string text(std::string_view key, bool required = false);
    bool flag(std::string_view key);
    /// A formula written as text or as a whole number; empty when the key is absent.
    Formula formula(std::string_view key, bool required = false);
    /// Puts the formula of a key in `formula` when the key is there; leaves it alone otherwise.
    void change(std::string_view key, Formula& formula);
    void change(std::string_view key, std::string& text);
    void change(std::string_view key, bool& flag);
    /// A condition ("a >= b"), which must be there.
    Formula condition(std::string_view key);
    /// One text or a list of texts.
    std::vector<std::string> texts(std::string_view key);
    /// One of `known`; complains of anything else. Nothing when the key is absent.
    std::optional<std::size_t> choice(std::string_view key, const std::vector<std::string>& known);
    /// The value as it stands; null when the key is absent.
    const toml::node* node(std::string_view key) { return find(key, false); }
    const toml::table* table(std::string_view key);
    const toml::array* array(std::string_view key);
    /// Complains of keys nobody asked for, offering the nearest that exist.
    void finish();

    /// Title of a table inside this one: "[cover]", "[variant.large.cover]".
    std::string titled(std::string_view key) const;
    /// Place of a key's value, or of the table itself.
    Place place(std::string_view key = {}) const;
    /// Formula in a value that is text or a whole number.
    Formula formula_of(const toml::node& node, const std::string& field);
    Place place_of(const toml::node& node, const std::string& field) const;

    Complaints& complaints() const { return complaints_; }

private:
    using Parse = Formula (*)(std::string text, Place place);
    Formula parsed(const toml::node& node, const std::string& field, Parse parse);
    const toml::node* find(std::string_view key, bool required);

    const toml::table& table_;
    std::string title_;
    Complaints& complaints_;
    std::set<std::string, std::less<>> asked_;
};

/// Keys of a table in the order they stand in the file (the library sorts them by name).
std::vector<std::string> keys_in_file_order(const toml::table& table);

} // namespace barrow::design
