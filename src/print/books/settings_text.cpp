#include "print/books/settings.hpp"

#include "print/write/terminal.hpp"

namespace barrow::print {

Blocks blocks(const std::vector<workshop::SettingLine>& lines) {
    Blocks blocks("Settings");
    Table table({{"Setting"}, {"Value"}, {"What it means", Kind::text, true}});
    for (const workshop::SettingLine& line : lines)
        table.row({line.name, line.value.empty() ? "-" : line.value, line.about});
    blocks.add(table);
    return blocks;
}

std::string screen(const std::vector<workshop::SettingLine>& lines) {
    return terminal(blocks(lines));
}

} // namespace barrow::print
