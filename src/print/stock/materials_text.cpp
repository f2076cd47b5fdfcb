#include "print/stock/materials.hpp"

#include "print/text/words.hpp"
#include "print/write/terminal.hpp"
#include "workshop/shared/quantity_text.hpp"

namespace barrow::print {

Blocks blocks(const std::vector<workshop::MaterialLine>& materials,
              const workshop::Settings& settings) {
    Blocks blocks("Materials");
    if (materials.empty()) {
        blocks.add(Text{"No materials yet. Bring them in with: barrow material import FILE"});
        return blocks;
    }
    Table table({{"Code", Kind::label},
                 {"Material"},
                 {"Form"},
                 {"Size", Kind::length},
                 {"Pack", Kind::quantity},
                 {"Price", Kind::money},
                 {"Supplier"},
                 {"Collection"}});
    for (const workshop::MaterialLine& line : materials) {
        const store::Material& m = line.material;
        table.row({link(Link::To::material, m.code), m.name, std::string(base::name_of(m.form)),
                   size_text(m.form, m.fresh, settings.unit),
                   workshop::units_text(m.form, m.bulk_unit == "g", m.pack_units),
                   money(m.pack_price, settings.currency), line.supplier, m.collection});
    }
    blocks.add(table);
    return blocks;
}

std::string screen(const std::vector<workshop::MaterialLine>& materials,
                   const workshop::Settings& settings) {
    return terminal(blocks(materials, settings));
}

Blocks blocks(const std::vector<store::Supplier>& suppliers) {
    Blocks blocks("Suppliers");
    if (suppliers.empty()) {
        blocks.add(Text{"No suppliers yet. Bring them in with: barrow supplier import FILE"});
        return blocks;
    }
    Table table({{"Code", Kind::label},
                 {"Supplier"},
                 {"Delivery, days", Kind::count},
                 {"Note", Kind::text, true}});
    for (const store::Supplier& supplier : suppliers)
        table.row({link(Link::To::supplier, supplier.code), supplier.name,
                   count(supplier.lead_days), supplier.note});
    blocks.add(table);
    return blocks;
}

std::string screen(const std::vector<store::Supplier>& suppliers) {
    return terminal(blocks(suppliers));
}

} // namespace barrow::print
