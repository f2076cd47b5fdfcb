#include "print/text/screens.hpp"

#include "base/text.hpp"
#include "print/text/table.hpp"
#include "print/text/words.hpp"
#include "workshop/shared/quantity_text.hpp"

#include <fmt/format.h>

namespace barrow::print {

using base::Money;
using workshop::StockLine;

namespace {

std::string on_hand_text(const StockLine& line, std::int64_t units) {
    const store::Material& material = line.material;
    return workshop::units_text(material.form, material.bulk_unit == "g", units);
}

std::string offcuts_text(const StockLine& line, base::Unit unit) {
    if (line.offcuts == 0) return {};
    return fmt::format("{} ({})", line.offcuts,
                       measure_text(line.material.form, false, line.offcut_quantity, unit));
}

} // namespace

std::string screen(const workshop::Stock& stock) {
    if (stock.lines.empty())
        return "The shop has no materials yet. Bring them in with: barrow material import FILE\n";
    Table table({{"Code"},
                 {"Material"},
                 {"On the shelf", Align::right},
                 {"of it reserved", Align::right},
                 {"On order", Align::right},
                 {"Offcuts", Align::right},
                 {"Value", Align::right},
                 {""}});
    for (const StockLine& line : stock.lines)
        table.row({line.material.code, line.material.name, on_hand_text(line, line.units),
                   line.reserved == 0 ? "" : on_hand_text(line, line.reserved),
                   line.on_order == 0 ? "" : on_hand_text(line, line.on_order),
                   offcuts_text(line, stock.settings.unit),
                   base::to_text(line.shelf_value + line.offcut_value, stock.settings.currency),
                   line.low ? "low" : ""});
    return table.text()
           + fmt::format("\nWorth {} in all, offcuts included.\n",
                         with_currency(stock.value, stock.settings.currency));
}

std::string screen(const workshop::OffcutBox& box) {
    if (box.lines.empty()) return "The offcut box is empty.\n";
    Table table({{"Label"},
                 {"Material"},
                 {""},
                 {"Size", Align::right},
                 {"Value", Align::right},
                 {"Kept for"},
                 {"Place"}});
    for (const workshop::OffcutLine& line : box.lines)
        table.row({line.there.offcut.code, line.material, line.material_name,
                   size_text(line.form, line.there.offcut.size, box.settings.unit),
                   base::to_text(line.there.value, box.settings.currency), age_text(line.age_days),
                   line.there.offcut.place});
    return table.text()
           + fmt::format("\n{}, worth {}.\n",
                         base::counted(static_cast<long long>(box.lines.size()), "offcut"),
                         with_currency(box.value, box.settings.currency));
}

std::string screen(const workshop::ShopValue& value) {
    Table table({{"Where the money is"}, {value.settings.currency.code, Align::right}});
    const auto row = [&](const char* name, Money amount) {
        table.row({name, base::to_text(amount, value.settings.currency)});
    };
    row("Received from suppliers", value.received);
    table.gap();
    row("On the shelf", value.on_shelf);
    row("In offcuts", value.in_offcuts);
    row("In work", value.in_work);
    row("In finished journals", value.in_journals);
    row("Sold", value.sold);
    row("Written off", value.written_off);
    table.gap();
    row("Difference", value.difference);
    return table.text()
           + "\nMaterials only: labour and overheads are added to a journal's cost, but were "
             "never\n"
             "received.\n";
}

std::string screen(const std::vector<workshop::LogLine>& lines) {
    if (lines.empty()) return "Nothing has been booked yet.\n";
    Table table({{"Entry", Align::right},
                 {"Day"},
                 {"What"},
                 {"Movements", Align::right},
                 {"Who"},
                 {"Note", Align::left, true}});
    for (const workshop::LogLine& line : lines) {
        std::string what = line.posting.kind;
        if (line.posting.reverses) what = fmt::format("reversal of {}", *line.posting.reverses);
        if (!line.reversed_by.empty()) what += fmt::format(" (reversed by {})", line.reversed_by);
        table.row({std::to_string(line.posting.id), base::to_text(line.posting.made_on), what,
                   std::to_string(line.movements), line.posting.who, line.posting.note});
    }
    return table.text();
}

std::string screen(const std::vector<workshop::SettingLine>& lines) {
    Table table({{"Setting"}, {"Value"}, {"What it means", Align::left, true}});
    for (const workshop::SettingLine& line : lines)
        table.row({line.name, line.value.empty() ? "-" : line.value, line.about});
    return table.text();
}

std::string screen(const std::vector<store::Supplier>& suppliers) {
    if (suppliers.empty())
        return "No suppliers yet. Bring them in with: barrow supplier import FILE\n";
    Table table(
        {{"Code"}, {"Supplier"}, {"Days to come", Align::right}, {"Note", Align::left, true}});
    for (const store::Supplier& supplier : suppliers)
        table.row(
            {supplier.code, supplier.name, std::to_string(supplier.lead_days), supplier.note});
    return table.text();
}

std::string screen(const std::vector<workshop::MaterialLine>& materials,
                   const workshop::Settings& settings) {
    if (materials.empty())
        return "No materials yet. Bring them in with: barrow material import FILE\n";
    Table table({{"Code"},
                 {"Material"},
                 {"Form"},
                 {"Size", Align::right},
                 {"Pack", Align::right},
                 {"Price", Align::right},
                 {"Supplier"},
                 {"Collection"}});
    for (const workshop::MaterialLine& line : materials) {
        const store::Material& m = line.material;
        table.row({m.code, m.name, std::string(base::name_of(m.form)),
                   size_text(m.form, m.fresh, settings.unit),
                   workshop::units_text(m.form, m.bulk_unit == "g", m.pack_units),
                   m.pack_price ? base::to_text(*m.pack_price, settings.currency) : "",
                   line.supplier, m.collection});
    }
    return table.text();
}

std::string screen(const std::vector<workshop::Received>& received,
                   const workshop::Settings& settings) {
    Table table({{"Entry", Align::right},
                 {"Day"},
                 {"Code"},
                 {"Material"},
                 {"Received", Align::right},
                 {"Cost", Align::right},
                 {"of it freight, tax", Align::right}});
    Money total;
    for (const workshop::Received& line : received) {
        total += line.lot.cost;
        table.row({std::to_string(line.posting), base::to_text(line.lot.received_on), line.material,
                   line.material_name,
                   workshop::units_text(line.form, line.bulk_is_mass, line.units),
                   base::to_text(line.lot.cost, settings.currency),
                   line.extra.is_zero() ? "" : base::to_text(line.extra, settings.currency)});
    }
    return table.text()
           + fmt::format("\n{} received for {}.\n",
                         base::counted(static_cast<long long>(received.size()), "lot"),
                         with_currency(total, settings.currency));
}

} // namespace barrow::print
