#include "print/making/fits.hpp"

#include "base/text.hpp"
#include "print/text/words.hpp"
#include "print/write/terminal.hpp"

namespace barrow::print {

Blocks blocks(const workshop::Fits& fits) {
    Table table({{"Label", Kind::label},
                 {"Offcut", Kind::length},
                 {"of", Kind::label},
                 {"gives", Kind::count},
                 {"Part"},
                 {"Design", Kind::label},
                 {"used", Kind::quantity},
                 {"Age"}});
    for (const workshop::Fit& line : fits.lines)
        table.row({link(Link::To::offcut, line.offcut),
                   size_text(line.form, line.size, fits.settings.unit),
                   link(Link::To::material, line.material), count(line.pieces), line.part,
                   link(Link::To::design, line.design), percent_text(line.used),
                   age_text(line.age_days)});
    Blocks blocks("Parts that fit the offcuts");
    blocks.add(table);
    if (fits.lines.empty() && fits.nothing_fits == 0) blocks.add(Text{"The offcut box is empty."});
    if (fits.nothing_fits > 0)
        blocks.add(Text{
            base::counted(fits.nothing_fits, "offcut in the box fits", "offcuts in the box fit")
            + " no part of any design."});
    return blocks;
}

std::string screen(const workshop::Fits& fits) {
    return terminal(blocks(fits));
}

} // namespace barrow::print
