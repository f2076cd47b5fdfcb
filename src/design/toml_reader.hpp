#pragma once

#include "base/error.hpp"
#include "design/formula.hpp"

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
    const toml::table* table(std::string_view key);
    const toml::array* array(std::string_view key);
    /// Complains of keys nobody asked for, offering the nearest that exist.
    void finish();

    /// Place of a key's value, or of the table itself.
    Place place(std::string_view key = {}) const;
    /// Formula in a value that is text or a whole number.
    Formula formula_of(const toml::node& node, const std::string& field);
    Place place_of(const toml::node& node, const std::string& field) const;

    const toml::table& raw() const { return table_; }

private:
    const toml::node* find(std::string_view key, bool required);

    const toml::table& table_;
    std::string title_;
    Complaints& complaints_;
    std::set<std::string, std::less<>> asked_;
};

/// Keys of a table in the order they stand in the file (the library sorts them by name).
std::vector<std::string> keys_in_file_order(const toml::table& table);

} // namespace barrow::design
