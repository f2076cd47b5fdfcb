#include "print/stock/offcuts.hpp"

#include "base/text.hpp"
#include "print/text/words.hpp"
#include "print/write/terminal.hpp"

#include <fmt/format.h>

namespace barrow::print {

Blocks blocks(const workshop::OffcutBox& box) {
    Blocks blocks("Offcut box");
    if (box.lines.empty()) {
        blocks.add(Text{"The offcut box is empty."});
        return blocks;
    }
    Table table({{"Label", Kind::label},
                 {"Material", Kind::label, false, "Code"},
                 {"", Kind::text, false, "Material"},
                 {"Size", Kind::length},
                 {"Value", Kind::money},
                 {"Age"},
                 {"Place"}});
    for (const workshop::OffcutLine& line : box.lines)
        table.row({link(Link::To::offcut, line.there.offcut.code),
                   link(Link::To::material, line.material), line.material_name,
                   size_text(line.form, line.there.offcut.size, box.settings.unit),
                   money(line.there.value, box.settings.currency), age_text(line.age_days),
                   line.there.offcut.place});
    blocks.add(table);
    blocks.add(Text{fmt::format("{}, worth {}.",
                                base::counted(static_cast<long long>(box.lines.size()), "offcut"),
                                with_currency(box.value, box.settings.currency))});
    return blocks;
}

std::string screen(const workshop::OffcutBox& box) {
    return terminal(blocks(box));
}

Blocks blocks(const workshop::NewOffcuts& made, const workshop::Settings& settings) {
    std::vector<store::Offcut> offcuts;
    for (const store::OffcutOnHand& there : made.offcuts) offcuts.push_back(there.offcut);
    Blocks blocks("New offcuts");
    blocks.add(label_table(offcuts, {{made.material.id, made.material}}, settings.unit));
    blocks.under(Text{fmt::format("(entry {})", made.posting)});
    return blocks;
}

std::string screen(const workshop::NewOffcuts& made, const workshop::Settings& settings) {
    return terminal(blocks(made, settings));
}

Table label_table(const std::vector<store::Offcut>& offcuts,
                  const std::map<std::int64_t, store::Material>& materials, base::Unit unit) {
    Table table({{"Label", Kind::label}, {"Offcut of"}, {"Size", Kind::length}});
    for (const store::Offcut& offcut : offcuts) {
        const store::Material& material = materials.at(offcut.material_id);
        table.row({link(Link::To::offcut, offcut.code), material.code + "  " + material.name,
                   size_text(material.form, offcut.size, unit)});
    }
    return table;
}

} // namespace barrow::print
