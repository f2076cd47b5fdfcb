#include "print/making/papers.hpp"

#include <fmt/format.h>

namespace barrow::print {
namespace {

using PapersLine = workshop::BatchPapersLine;

/// All of one run; empty when there are none.
Table table_of(const std::vector<PapersLine>& lines) {
    std::vector<Column> columns = {{"Journals"}};
    if (!lines.empty())
        for (const auto& paper : lines.front().papers) columns.push_back({paper.slot});
    Table table(columns);
    for (const PapersLine& line : lines) {
        std::vector<Cell> cells = {line.first == line.last
                                       ? fmt::format("{}", line.first)
                                       : fmt::format("{} to {}", line.first, line.last)};
        for (const auto& paper : line.papers) {
            cells.emplace_back(paper.material + "  " + paper.name);
            cells.back().link = Link{Link::To::material, paper.material};
        }
        table.row(cells);
    }
    return table;
}

} // namespace

Table papers_table(const workshop::Costing& costing, std::size_t run) {
    std::vector<PapersLine> lines;
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

Table papers_table(const workshop::BatchReport& report, std::int64_t run) {
    std::vector<PapersLine> lines;
    for (const PapersLine& line : report.papers)
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
