#include "print/text/table.hpp"

#include "base/text.hpp"

#include <algorithm>
#include <sstream>
#include <utility>

namespace barrow::print {
namespace {

std::string padded(const std::string& text, std::size_t width, Align align) {
    const std::size_t own = base::display_width(text);
    const std::string spaces(width > own ? width - own : 0, ' ');
    return align == Align::right ? spaces + text : text + spaces;
}

constexpr std::size_t screen_width = 100;
constexpr std::size_t least_wrapped = 16;

std::vector<std::string> broken_at(const std::string& text, std::size_t width) {
    if (base::display_width(text) <= width) return {text};
    std::vector<std::string> lines;
    std::istringstream all(wrapped(text, width, 0));
    for (std::string line; std::getline(all, line);) lines.push_back(line);
    return lines;
}

std::string without_trailing_spaces(std::string line) {
    while (!line.empty() && line.back() == ' ') line.pop_back();
    return line;
}

} // namespace

Table::Table(std::vector<Column> columns) : columns_(std::move(columns)) {}

void Table::row(std::vector<std::string> cells) {
    cells.resize(columns_.size());
    rows_.push_back(std::move(cells));
}

void Table::gap() {
    rows_.emplace_back();
}

/// Makes the widest of the columns that wrap narrower until the table fits, as far as words allow.
void Table::fit(std::vector<std::size_t>& widths, const std::vector<bool>& shown) const {
    std::size_t total = 0;
    for (std::size_t c = 0; c < widths.size(); ++c)
        if (shown[c]) total += widths[c] + (total > 0 ? 2 : 0);
    for (; total > screen_width; --total) {
        std::size_t widest = widths.size();
        for (std::size_t c = 0; c < widths.size(); ++c)
            if (shown[c] && columns_[c].wraps && widths[c] > least_wrapped
                && (widest == widths.size() || widths[c] > widths[widest]))
                widest = c;
        if (widest == widths.size()) return;
        --widths[widest];
    }
}

std::string Table::text() const {
    std::vector<std::size_t> widths(columns_.size(), 0);
    for (const auto& row : rows_)
        for (std::size_t c = 0; c < row.size(); ++c)
            widths[c] = std::max(widths[c], base::display_width(row[c]));
    std::vector<bool> shown;
    for (std::size_t c = 0; c < columns_.size(); ++c) {
        shown.push_back(widths[c] > 0);
        widths[c] = std::max(widths[c], base::display_width(columns_[c].heading));
    }
    fit(widths, shown);
    std::string text;
    const auto add_line = [&](const auto& cell_of) {
        std::string line;
        for (std::size_t c = 0; c < columns_.size(); ++c) {
            if (!shown[c]) continue;
            if (!line.empty()) line += "  ";
            line += padded(cell_of(c), widths[c], columns_[c].align);
        }
        text += without_trailing_spaces(line) + "\n";
    };
    add_line([&](std::size_t c) { return columns_[c].heading; });
    for (const auto& row : rows_) {
        if (row.empty()) {
            text += "\n";
            continue;
        }
        std::vector<std::vector<std::string>> cells;
        std::size_t lines = 1;
        for (std::size_t c = 0; c < row.size(); ++c) {
            cells.push_back(columns_[c].wraps ? broken_at(row[c], widths[c])
                                              : std::vector<std::string>{row[c]});
            lines = std::max(lines, cells.back().size());
        }
        for (std::size_t l = 0; l < lines; ++l)
            add_line([&](std::size_t c) { return l < cells[c].size() ? cells[c][l] : ""; });
    }
    return text;
}

std::string wrapped(const std::string& text, std::size_t width, std::size_t indent) {
    std::istringstream words(text);
    std::string result;
    std::size_t column = 0;
    for (std::string word; words >> word;) {
        const std::size_t own = base::display_width(word);
        if (column > 0 && column + 1 + own > width) {
            result += "\n" + std::string(indent, ' ');
            column = indent;
        } else if (column > 0) {
            result += ' ';
            ++column;
        }
        result += word;
        column += own;
    }
    return result;
}

} // namespace barrow::print
