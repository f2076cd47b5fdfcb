#include "reading/csv_table.hpp"

#include "base/error.hpp"
#include "base/text.hpp"

#include <csv.h>

#include <fmt/format.h>

#include <algorithm>

namespace barrow::reading {
namespace {

using base::Problem;

/// What the parser's callbacks fill. The library reports no positions, so lines are counted from
/// the text itself: it is fed one physical line after the other.
struct Gathering {
    std::vector<CsvRow> rows;
    CsvRow row;
    int line = 0; ///< of the line being fed
};

void on_cell(void* text, std::size_t size, void* data) {
    auto& gathering = *static_cast<Gathering*>(data);
    if (gathering.row.cells.empty() && gathering.row.line == 0) gathering.row.line = gathering.line;
    gathering.row.cells.emplace_back(text == nullptr ? "" : static_cast<const char*>(text), size);
}

void on_row(int, void* data) {
    auto& gathering = *static_cast<Gathering*>(data);
    const bool empty =
        std::all_of(gathering.row.cells.begin(), gathering.row.cells.end(),
                    [](const std::string& cell) { return base::trimmed(cell).empty(); });
    if (!empty) gathering.rows.push_back(gathering.row);
    gathering.row = {};
}

class Parser {
public:
    Parser() {
        if (csv_init(&parser_, CSV_STRICT | CSV_STRICT_FINI) != 0)
            throw base::broken("the CSV parser did not start");
    }
    ~Parser() { csv_free(&parser_); }
    Parser(const Parser&) = delete;
    Parser& operator=(const Parser&) = delete;

    std::vector<CsvRow> parse(std::string_view text, const std::string& file) {
        while (!text.empty()) {
            const std::size_t end = text.find('\n');
            const std::string_view line =
                end == std::string_view::npos ? text : text.substr(0, end + 1);
            ++gathering_.line;
            // A cell with a line break keeps the line its row began on.
            if (gathering_.row.cells.empty() && !inside_quotes_)
                gathering_.row.line = gathering_.line;
            if (csv_parse(&parser_, line.data(), line.size(), on_cell, on_row, &gathering_)
                != line.size())
                throw refused(file);
            inside_quotes_ ^= std::count(line.begin(), line.end(), '"') % 2 != 0;
            text.remove_prefix(line.size());
        }
        if (csv_fini(&parser_, on_cell, on_row, &gathering_) != 0) throw refused(file);
        return std::move(gathering_.rows);
    }

private:
    base::Error refused(const std::string& file) const {
        return base::bad_input(
            fmt::format("{}:{}", file, gathering_.line),
            "is not CSV: a quotation mark stands where none may, or is not closed",
            "put cells with commas or quotes in quotes, and double quotes inside");
    }

    csv_parser parser_{};
    Gathering gathering_;
    bool inside_quotes_ = false;
};

void check_columns(const CsvTable& table, int line, const std::vector<std::string>& known) {
    std::vector<Problem> problems;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        const std::string& name = table.columns[i];
        const std::string where = fmt::format("{}:{}, column {}", table.file, line, i + 1);
        if (std::find(known.begin(), known.end(), name) == known.end()) {
            std::string hint = base::did_you_mean(name, known);
            if (hint.empty()) hint = fmt::format("columns: {}", fmt::join(known, ", "));
            problems.push_back({where, fmt::format("there is no column \"{}\"", name), hint});
        } else if (std::count(table.columns.begin(), table.columns.end(), name) > 1) {
            problems.push_back({where, fmt::format("the column \"{}\" is there twice", name), {}});
        }
    }
    if (!problems.empty()) throw base::Error(base::Kind::bad_input, problems);
}

} // namespace

CsvTable read_csv(std::string_view text, const std::string& file,
                  const std::vector<std::string>& known) {
    if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
    if (!base::is_utf8(text))
        throw base::bad_input(file, "is not UTF-8 text", "save it as CSV in UTF-8");
    CsvTable table;
    table.file = file;
    table.rows = Parser().parse(text, file);
    if (table.rows.empty())
        throw base::bad_input(file, "is empty", "the first line names the columns");
    const CsvRow header = table.rows.front();
    table.rows.erase(table.rows.begin());
    for (const std::string& cell : header.cells)
        table.columns.push_back(base::lowered(base::trimmed(cell)));
    if (table.columns.size() == 1
        && table.columns.front().find_first_of(";\t") != std::string::npos)
        throw base::bad_input(fmt::format("{}:{}", file, header.line),
                              "separates its cells with semicolons or tabs",
                              "save it with commas between the cells");
    check_columns(table, header.line, known);
    std::vector<Problem> problems;
    for (const CsvRow& row : table.rows)
        if (row.cells.size() > table.columns.size())
            problems.push_back({fmt::format("{}:{}", file, row.line),
                                fmt::format("has {} cells, but there are {} columns",
                                            row.cells.size(), table.columns.size()),
                                "a cell with a comma in it goes in quotes"});
    if (!problems.empty()) throw base::Error(base::Kind::bad_input, problems);
    return table;
}

} // namespace barrow::reading
