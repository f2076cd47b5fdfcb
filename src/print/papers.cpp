#include "print/papers.hpp"

#include "print/table.hpp"

#include <fmt/format.h>

namespace barrow::print {

std::string papers_text(const workshop::Costing& costing, std::size_t run) {
    std::vector<const costing::PaperRow*> rows;
    for (const costing::PaperRow& row : costing.estimate.rows)
        if (row.run == run) rows.push_back(&row);
    if (rows.empty()) return {};
    std::vector<Table::Column> columns = {{"Journals"}};
    for (const auto& [slot, paper] : rows.front()->papers) columns.push_back({slot});
    Table table(columns);
    for (const costing::PaperRow* row : rows) {
        std::vector<std::string> cells = {row->first == row->last
                                              ? fmt::format("{}", row->first)
                                              : fmt::format("{} to {}", row->first, row->last)};
        for (const auto& [slot, paper] : row->papers) {
            const costing::ShelfMaterial& material = (*costing.shelf)[paper];
            cells.push_back(material.code + "  " + material.name);
        }
        table.row(cells);
    }
    return table.text();
}

} // namespace barrow::print
