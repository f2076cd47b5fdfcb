#include "print/making/papers.hpp"

#include "print/text/table.hpp"

#include <fmt/format.h>

namespace barrow::print {
namespace {

using Line = workshop::BatchPapersLine;

/// All of one run; nothing when there are none.
std::string table_of(const std::vector<Line>& lines) {
    if (lines.empty()) return {};
    std::vector<Table::Column> columns = {{"Journals"}};
    for (const auto& paper : lines.front().papers) columns.push_back({paper.slot});
    Table table(columns);
    for (const Line& line : lines) {
        std::vector<std::string> cells = {line.first == line.last
                                              ? fmt::format("{}", line.first)
                                              : fmt::format("{} to {}", line.first, line.last)};
        for (const auto& paper : line.papers) cells.push_back(paper.material + "  " + paper.name);
        table.row(cells);
    }
    return table.text();
}

} // namespace

std::string papers_text(const workshop::Costing& costing, std::size_t run) {
    std::vector<Line> lines;
    for (const costing::PaperRow& row : costing.estimate.rows) {
        if (row.run != run) continue;
        lines.push_back({static_cast<std::int64_t>(run), row.first, row.last, {}});
        for (const auto& [slot, paper] : row.papers) {
            const costing::ShelfMaterial& material = (*costing.shelf)[paper];
            lines.back().papers.push_back({slot, material.code, material.name});
        }
    }
    return table_of(lines);
}

std::string papers_text(const workshop::BatchReport& report, std::int64_t run) {
    std::vector<Line> lines;
    for (const Line& line : report.papers)
        if (line.run == run) lines.push_back(line);
    return table_of(lines);
}

std::string papers_text(const std::vector<store::JournalPaper>& papers) {
    std::string text;
    for (const store::JournalPaper& paper : papers)
        text += fmt::format("{}{} {}", text.empty() ? "" : ", ", paper.slot, paper.material);
    return text;
}

} // namespace barrow::print
