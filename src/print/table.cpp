#include "print/table.hpp"

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
        add_line([&](std::size_t c) { return row[c]; });
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
