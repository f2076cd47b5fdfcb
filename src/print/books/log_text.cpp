#include "print/books/log.hpp"

#include "print/write/terminal.hpp"

#include <fmt/format.h>

namespace barrow::print {

Blocks blocks(const std::vector<workshop::LogLine>& lines) {
    Blocks blocks("Entries in the book");
    if (lines.empty()) {
        blocks.add(Text{"The book has no entries yet."});
        return blocks;
    }
    Table table({{"Entry", Kind::count},
                 {"Day", Kind::date},
                 {"What"},
                 {"Movements", Kind::count},
                 {"Who"},
                 {"Note", Kind::text, true}});
    for (const workshop::LogLine& line : lines) {
        std::string what = line.posting.kind;
        if (line.posting.reverses) what = fmt::format("reversal of {}", *line.posting.reverses);
        if (!line.reversed_by.empty()) what += fmt::format(" (reversed by {})", line.reversed_by);
        table.row({link(Link::To::entry, line.posting.id), date(line.posting.made_on), what,
                   count(line.movements), line.posting.who, line.posting.note});
    }
    blocks.add(table);
    return blocks;
}

std::string screen(const std::vector<workshop::LogLine>& lines) {
    return terminal(blocks(lines));
}

} // namespace barrow::print
