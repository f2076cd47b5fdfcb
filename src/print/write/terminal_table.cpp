#include "print/write/terminal_table.hpp"

#include "base/text.hpp"
#include "print/text/harmless.hpp"
#include "print/text/wrapped.hpp"

#include <algorithm>
#include <sstream>
#include <vector>

namespace barrow::print {
namespace {

using base::display_width;

constexpr std::size_t least_wrapped = 16;

std::string padded(const std::string& text, std::size_t width, Kind kind) {
    const std::size_t own = display_width(text);
    const std::string spaces(width > own ? width - own : 0, ' ');
    return is_right_aligned(kind) ? spaces + text : text + spaces;
}

std::vector<std::string> broken_at(const std::string& text, std::size_t width) {
    if (display_width(text) <= width) return {text};
    std::vector<std::string> lines;
    std::istringstream all(wrapped(text, width, 0));
    for (std::string line; std::getline(all, line);) lines.push_back(line);
    return lines;
}

std::string without_trailing_spaces(std::string line) {
    while (!line.empty() && line.back() == ' ') line.pop_back();
    return line;
}

class TableText {
public:
    TableText(const Table& table, std::size_t screen)
        : columns_(table.columns()), shown_(table.shown()), widths_(columns_.size(), 0) {
        for (const auto& row : table.rows()) {
            rows_.emplace_back();
            for (std::size_t c = 0; c < row.size(); ++c) {
                rows_.back().push_back(harmless(row[c].text));
                widths_[c] = std::max(widths_[c], display_width(rows_.back().back()));
            }
        }
        for (std::size_t c = 0; c < columns_.size(); ++c) {
            headings_.push_back(harmless(columns_[c].heading));
            widths_[c] = std::max(widths_[c], display_width(headings_.back()));
        }
        fit(screen);
    }

    std::string text() const {
        std::string text;
        const auto has_words = [&](std::size_t c) { return shown_[c] && !headings_[c].empty(); };
        for (std::size_t c = 0; c < columns_.size() && text.empty(); ++c)
            if (has_words(c)) text = line(headings_);
        for (const auto& row : rows_) text += row.empty() ? "\n" : lines_of(row);
        return text;
    }

private:
    /// Makes the widest of the columns that wrap narrower until the table fits, as far as words
    /// allow.
    void fit(std::size_t screen) {
        std::size_t total = 0;
        for (std::size_t c = 0; c < widths_.size(); ++c)
            if (shown_[c]) total += widths_[c] + (total > 0 ? 2 : 0);
        for (; total > screen; --total) {
            std::size_t widest = widths_.size();
            for (std::size_t c = 0; c < widths_.size(); ++c)
                if (shown_[c] && columns_[c].wraps && widths_[c] > least_wrapped
                    && (widest == widths_.size() || widths_[c] > widths_[widest]))
                    widest = c;
            if (widest == widths_.size()) return;
            --widths_[widest];
        }
    }

    std::string line(const std::vector<std::string>& cells) const {
        std::string line;
        for (std::size_t c = 0; c < columns_.size(); ++c) {
            if (!shown_[c]) continue;
            if (!line.empty()) line += "  ";
            line += padded(cells[c], widths_[c], columns_[c].kind);
        }
        return without_trailing_spaces(line) + "\n";
    }

    std::string lines_of(const std::vector<std::string>& row) const {
        std::vector<std::vector<std::string>> cells;
        std::size_t lines = 1;
        for (std::size_t c = 0; c < row.size(); ++c) {
            cells.push_back(columns_[c].wraps ? broken_at(row[c], widths_[c])
                                              : std::vector<std::string>{row[c]});
            lines = std::max(lines, cells.back().size());
        }
        std::string text;
        for (std::size_t l = 0; l < lines; ++l) {
            std::vector<std::string> own;
            for (const auto& cell : cells) own.push_back(l < cell.size() ? cell[l] : "");
            text += line(own);
        }
        return text;
    }

    const std::vector<Column>& columns_;
    std::vector<bool> shown_;
    std::vector<std::size_t> widths_;
    std::vector<std::string> headings_;
    std::vector<std::vector<std::string>> rows_;
};

} // namespace

std::string terminal_table(const Table& table, std::size_t columns) {
    return TableText(table, columns).text();
}

} // namespace barrow::print
