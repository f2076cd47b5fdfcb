#pragma once

#include <string>
#include <vector>

namespace barrow::print {

enum class Align { left, right };

/// A table of plain text for a terminal or a file: a heading over each column, columns two spaces
/// apart, as wide as their widest cell counted in columns, not bytes. No lines, no colours. Where
/// that is wider than a screen of 100 columns, the cells of columns that wrap go on in the lines
/// below.
class Table {
public:
    struct Column {
        std::string heading;
        Align align = Align::left;
        bool wraps = false;
    };

    explicit Table(std::vector<Column> columns);

    /// One row; missing cells at its end are empty.
    void row(std::vector<std::string> cells);
    /// A blank line between groups of rows.
    void gap();

    bool empty() const { return rows_.empty(); }
    /// Columns that are empty in every row are left out.
    std::string text() const;

private:
    void fit(std::vector<std::size_t>& widths, const std::vector<bool>& shown) const;

    std::vector<Column> columns_;
    std::vector<std::vector<std::string>> rows_; ///< an empty row is a gap
};

/// Columns that running text is wrapped to.
inline constexpr std::size_t page_width = 96;

/// Text broken at spaces into lines of at most `width` columns, each but the first indented.
std::string wrapped(const std::string& text, std::size_t width, std::size_t indent);

} // namespace barrow::print
