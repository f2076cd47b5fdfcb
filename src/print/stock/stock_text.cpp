#include "print/stock/stock.hpp"

#include "print/text/words.hpp"
#include "print/write/terminal.hpp"
#include "workshop/shared/quantity_text.hpp"

#include <fmt/format.h>

namespace barrow::print {
namespace {

using workshop::StockLine;

std::string units_on_shelf(const StockLine& line, std::int64_t units) {
    const store::Material& material = line.material;
    return workshop::units_text(material.form, material.bulk_unit == "g", units);
}

} // namespace

std::string offcuts_text(const StockLine& line, base::Unit unit) {
    if (line.offcuts == 0) return {};
    return fmt::format("{} ({})", line.offcuts,
                       measure_text(line.material.form, false, line.offcut_quantity, unit));
}

Blocks blocks(const workshop::Stock& stock) {
    Blocks blocks("Stock");
    if (stock.lines.empty()) {
        blocks.add(
            Text{"The shop has no materials yet. Bring them in with: barrow material import FILE"});
        return blocks;
    }
    Table table({{"Code", Kind::label},
                 {"Material"},
                 {"On the shelf", Kind::quantity},
                 {"of which reserved", Kind::quantity},
                 {"On order", Kind::quantity},
                 {"Offcuts", Kind::quantity},
                 {"Value", Kind::money},
                 {"", Kind::text, false, "Level"}});
    for (const StockLine& line : stock.lines)
        table.row({link(Link::To::material, line.material.code), line.material.name,
                   units_on_shelf(line, line.units),
                   line.reserved == 0 ? "" : units_on_shelf(line, line.reserved),
                   line.on_order == 0 ? "" : units_on_shelf(line, line.on_order),
                   offcuts_text(line, stock.settings.unit),
                   money(line.shelf_value + line.offcut_value, stock.settings.currency),
                   line.low ? "low" : ""});
    blocks.add(table);
    blocks.add(Text{fmt::format("Worth {} in all, offcuts included.",
                                with_currency(stock.value, stock.settings.currency))});
    return blocks;
}

std::string screen(const workshop::Stock& stock) {
    return terminal(blocks(stock));
}

} // namespace barrow::print
