#pragma once

#include <string>
#include <utility>
#include <vector>

namespace barrow::print {

/// One cell of a CSV file.
struct CsvCell {
    CsvCell(std::string words) : text(std::move(words)) {} // NOLINT(google-explicit-constructor)
    CsvCell(const char* words) : text(words) {}            // NOLINT(google-explicit-constructor)
    /// A decimal number of our own making ("-12.40"), or nothing: written as it is.
    static CsvCell number(std::string decimal);

    std::string text;
    bool is_number = false;
};

/// Writes CSV text as RFC 4180 has it, in UTF-8, with LF at the end of each line: a cell is put in
/// quotes when it holds a comma, a quotation mark, a line break, or a space at an end.
///
/// A text cell that a spreadsheet would run as a formula, because it begins with = + - @ or a tab
/// or carriage return, gets an apostrophe put before it; so does one that begins with apostrophes
/// and then such a sign, so that `defused` can be taken back without doubt (see
/// reading::as_written). Numbers are not touched: a spreadsheet reads -12.40 as a number.
class CsvText {
public:
    explicit CsvText(const std::vector<std::string>& columns);
    /// As many cells as there are columns.
    void row(const std::vector<CsvCell>& cells);

    const std::string& text() const { return text_; }

private:
    std::size_t columns_;
    std::string text_;
};

/// The text as it may stand in a spreadsheet.
std::string defused(const std::string& text);

} // namespace barrow::print
