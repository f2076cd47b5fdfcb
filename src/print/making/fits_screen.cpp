#include "print/making/bench_screens.hpp"

#include "base/text.hpp"
#include "print/text/table.hpp"
#include "print/text/words.hpp"
#include "workshop/shared/quantity_text.hpp"

#include <fmt/format.h>

namespace barrow::print {

std::string screen(const workshop::Fits& fits) {
    Table table({{"Label"},
                 {"Offcut", Align::right},
                 {"of"},
                 {"gives", Align::right},
                 {"Part"},
                 {"Design"},
                 {"used", Align::right},
                 {"Kept for"}});
    for (const workshop::Fit& line : fits.lines)
        table.row({line.offcut, size_text(line.form, line.size, fits.settings.unit), line.material,
                   std::to_string(line.pieces), line.part, line.design, percent_text(line.used),
                   age_text(line.age_days)});
    std::string text = fits.lines.empty() ? "" : table.text() + "\n";
    if (fits.lines.empty() && fits.nothing_fits == 0) return "The offcut box is empty.\n";
    if (fits.nothing_fits > 0)
        text += fmt::format("{} in the box fit no part of any design.\n",
                            base::counted(fits.nothing_fits, "offcut"));
    return text;
}

} // namespace barrow::print
