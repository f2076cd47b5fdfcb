#include "print/stock/lots.hpp"

#include "base/text.hpp"
#include "print/text/words.hpp"
#include "print/write/terminal.hpp"
#include "workshop/shared/quantity_text.hpp"

#include <fmt/format.h>

namespace barrow::print {

Blocks blocks(const workshop::Lots& lots) {
    Blocks blocks("Lots on the shelf");
    if (lots.lines.empty()) {
        blocks.add(Text{"There is none of it on the shelf."});
        return blocks;
    }
    Table table({{"Lot", Kind::count},
                 {"Material", Kind::label},
                 {"Received", Kind::date, false, "Received on"},
                 {"Size", Kind::length},
                 {"received", Kind::quantity},
                 {"left", Kind::quantity},
                 {"Value", Kind::money},
                 {"Supplier"},
                 {"Note", Kind::text, true}});
    for (const workshop::LotLine& line : lots.lines) {
        const auto units = [&](std::int64_t n) {
            return workshop::units_text(line.form, line.bulk_is_mass, n);
        };
        table.row({link(Link::To::lot, line.there.lot.id), link(Link::To::material, line.material),
                   date(line.there.lot.received_on),
                   size_text(line.form, line.there.lot.unit, lots.settings.unit),
                   units(line.received_units), units(line.units),
                   money(line.there.value, lots.settings.currency), line.supplier,
                   line.there.lot.note});
    }
    blocks.add(table);
    return blocks;
}

std::string screen(const workshop::Lots& lots) {
    return terminal(blocks(lots));
}

Blocks blocks(const std::vector<workshop::Received>& received, const workshop::Settings& settings) {
    Table table({{"Entry", Kind::count},
                 {"Day", Kind::date},
                 {"Code", Kind::label},
                 {"Material"},
                 {"Received", Kind::quantity},
                 {"Cost", Kind::money},
                 {"freight and tax", Kind::money}});
    base::Money total;
    for (const workshop::Received& line : received) {
        total += line.lot.cost;
        table.row({link(Link::To::entry, line.posting), date(line.lot.received_on),
                   link(Link::To::material, line.material), line.material_name,
                   workshop::units_text(line.form, line.bulk_is_mass, line.units),
                   money(line.lot.cost, settings.currency),
                   line.extra.is_zero() ? Cell() : money(line.extra, settings.currency)});
    }
    Blocks blocks("Received");
    blocks.add(table);
    blocks.add(Text{fmt::format("{} received for {}, freight and tax included.",
                                base::counted(static_cast<long long>(received.size()), "lot"),
                                with_currency(total, settings.currency))});
    return blocks;
}

std::string screen(const std::vector<workshop::Received>& received,
                   const workshop::Settings& settings) {
    return terminal(blocks(received, settings));
}

} // namespace barrow::print
