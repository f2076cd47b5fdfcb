#include "print/csv/csv_text.hpp"

#include "base/error.hpp"

#include <string_view>

namespace barrow::print {
namespace {

constexpr std::string_view formula_signs = "=+-@\t\r";

bool needs_quotes(const std::string& text) {
    return text.find_first_of(",\"\r\n") != std::string::npos
           || (!text.empty()
               && (text.front() == ' ' || text.front() == '\t' || text.back() == ' '
                   || text.back() == '\t'));
}

std::string quoted(const std::string& text) {
    std::string result = "\"";
    for (const char c : text) {
        if (c == '"') result += '"';
        result += c;
    }
    return result + '"';
}

} // namespace

CsvCell CsvCell::number(std::string decimal) {
    if (decimal.find_first_not_of("-0123456789.") != std::string::npos)
        throw base::broken("\"" + decimal + "\" was to be a number in a CSV file");
    CsvCell cell(std::move(decimal));
    cell.is_number = true;
    return cell;
}

std::string defused(const std::string& text) {
    const std::size_t sign = text.find_first_not_of('\'');
    const bool formula =
        sign != std::string::npos && formula_signs.find(text[sign]) != std::string_view::npos;
    return formula ? "'" + text : text;
}

CsvText::CsvText(const std::vector<std::string>& columns) : columns_(columns.size()) {
    row({columns.begin(), columns.end()});
}

void CsvText::row(const std::vector<CsvCell>& cells) {
    if (cells.size() != columns_)
        throw base::broken("a row of a CSV file does not fit its columns");
    std::string line;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const std::string cell = cells[i].is_number ? cells[i].text : defused(cells[i].text);
        if (i > 0) line += ',';
        line += needs_quotes(cell) ? quoted(cell) : cell;
    }
    // A line of nothing at all would be read as no row.
    text_ += line.empty() ? "\"\"" : line;
    text_ += '\n';
}

} // namespace barrow::print
