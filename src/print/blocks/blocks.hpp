#pragma once

#include "base/date.hpp"
#include "base/money.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

/// An answer as a small document of blocks: plain data, in no form yet. `write/` turns it into
/// terminal text or HTML, and a table of it into CSV.
namespace barrow::print {

/// What a cell or a column holds. Money, lengths, quantities and counts are aligned right.
enum class Kind { text, money, length, quantity, count, date, label };

bool is_right_aligned(Kind kind);

/// The thing of the shop that a cell names.
struct Link {
    enum class To { material, lot, offcut, journal, batch, design, fair, order, supplier, entry };
    To to = To::material;
    std::string code;
};

/// "material", "lot": the name of a kind of link in lower case.
const char* name_of(Link::To to);

/// One value as a person reads it.
struct Cell {
    Cell() = default;
    Cell(std::string words) : text(std::move(words)) {} // NOLINT(google-explicit-constructor)
    Cell(const char* words) : text(words) {}            // NOLINT(google-explicit-constructor)
    Cell(std::string words, Kind is) : text(std::move(words)), kind(is) {}

    std::string text;
    Kind kind = Kind::text;
    std::optional<Link> link = {};
};

Cell money(base::Money amount, const base::Currency& currency);
/// An empty cell where there is no amount.
Cell money(const std::optional<base::Money>& amount, const base::Currency& currency);
Cell count(std::int64_t number);
Cell date(base::Date day);
/// A label or code that is not a link.
Cell label(std::string code);
/// The code of a thing, linked to it.
Cell link(Link::To to, const std::string& code);
/// The number of a lot, batch, order, fair or entry, linked to it.
Cell link(Link::To to, std::int64_t number);

/// A line over what follows it.
struct Heading {
    std::string text;
};

/// A paragraph. On a terminal its second and further lines begin `hang` columns further in.
struct Text {
    std::string text;
    std::size_t hang = 0;
};

/// A remark that asks for attention: "Note: " and the text.
Text note(const std::string& text);

/// A named value, with how it came about.
struct Fact {
    std::string name;
    Cell value;
    std::string explanation = {};
    bool part = false; ///< a line of the account under the line or heading above it
};

/// Named values one under the other.
struct Facts {
    struct Group {
        std::string heading;
        std::vector<Fact> facts;
    };

    std::string names;  ///< heading over the names; may be empty
    std::string values; ///< heading over the values; may be empty
    std::vector<Group> groups;
};

struct Column {
    std::string heading;
    Kind kind = Kind::text;
    bool wraps = false;    ///< may go on in the lines below where the terminal is narrow
    std::string name = {}; ///< what it is called where a heading is needed and `heading` is empty
};

/// Rows of cells. A column that is empty in every row is not shown.
class Table {
public:
    explicit Table(std::vector<Column> columns) : columns_(std::move(columns)) {}

    /// One row; missing cells at its end are empty.
    void row(std::vector<Cell> cells);
    /// Begins a new group of rows.
    void gap();

    bool empty() const { return rows_.empty(); }
    const std::vector<Column>& columns() const { return columns_; }
    /// An empty row stands between two groups.
    const std::vector<std::vector<Cell>>& rows() const { return rows_; }
    /// For each column, whether any row has something in it.
    std::vector<bool> shown() const;

private:
    std::vector<Column> columns_;
    std::vector<std::vector<Cell>> rows_;
};

/// Things to do, one after the other.
struct Steps {
    std::vector<std::string> steps;
};

/// An SVG 1.1 picture. A terminal does not show it.
struct Drawing {
    std::string svg;
};

/// What may hurt, and how it is avoided.
struct Cautions {
    std::vector<std::string> texts;
    std::string closing = {};
};

struct Block {
    std::variant<Heading, Text, Facts, Table, Steps, Drawing, Cautions> what;
    bool under = false;     ///< right under the block before it, with no blank line between
    std::size_t indent = 0; ///< columns further in, on a terminal
};

using Content = decltype(Block::what);

/// A whole answer.
struct Blocks {
    explicit Blocks(std::string name) : title(std::move(name)) {}

    /// Adds a block after a blank line. What is empty is left out.
    void add(Content what, std::size_t indent = 0);
    /// Adds a block right under the one before it. What is empty is left out.
    void under(Content what, std::size_t indent = 0);
    /// Adds all blocks of another answer.
    void add_all(const Blocks& other);

    std::string title;
    std::vector<Block> list;
};

} // namespace barrow::print
