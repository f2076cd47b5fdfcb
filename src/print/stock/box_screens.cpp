#include "print/stock/box_screens.hpp"

#include "base/text.hpp"
#include "print/text/table.hpp"
#include "print/text/words.hpp"
#include "workshop/shared/quantity_text.hpp"

#include <fmt/format.h>

namespace barrow::print {

std::string screen(const workshop::Lots& lots) {
    if (lots.lines.empty()) return "Nothing of it is on the shelf.\n";
    Table table({{"Lot", Align::right},
                 {"Material"},
                 {"Received"},
                 {"Size", Align::right},
                 {"came", Align::right},
                 {"left", Align::right},
                 {"Value", Align::right},
                 {"Supplier"},
                 {"Note", Align::left, true}});
    for (const workshop::LotLine& line : lots.lines) {
        const auto units = [&](std::int64_t n) {
            return workshop::units_text(line.form, line.bulk_is_mass, n);
        };
        table.row({std::to_string(line.there.lot.id), line.material,
                   base::to_text(line.there.lot.received_on),
                   size_text(line.form, line.there.lot.unit, lots.settings.unit),
                   units(line.received_units), units(line.units),
                   base::to_text(line.there.value, lots.settings.currency), line.supplier,
                   line.there.lot.note});
    }
    return table.text();
}

std::string screen(const workshop::NewOffcuts& made, const workshop::Settings& settings) {
    std::vector<store::Offcut> offcuts;
    for (const store::OffcutOnHand& there : made.offcuts) offcuts.push_back(there.offcut);
    return labels(offcuts, {{made.material.id, made.material}}, settings.unit)
           + fmt::format("(entry {})\n", made.posting);
}

std::string screen(const workshop::CountSheet& sheet) {
    const bool open = sheet.stocktake.status == store::StocktakeStatus::open;
    std::string text =
        fmt::format("Stocktake {}, begun {}{}: {}\n\n", sheet.stocktake.number,
                    base::to_text(sheet.stocktake.started_on),
                    sheet.stocktake.place.empty() ? "" : ", " + sheet.stocktake.place,
                    open                                                       ? "open"
                    : sheet.stocktake.status == store::StocktakeStatus::posted ? "posted"
                                                                               : "dropped");
    Table table({{"Code"},
                 {"What"},
                 {"counted", Align::right},
                 {"in the book", Align::right},
                 {"difference", Align::right},
                 {"missing value", Align::right}});
    base::Money missing;
    for (const workshop::CountLine& line : sheet.lines) {
        const auto units = [&](std::int64_t n) {
            if (line.offcut) return std::string(n == 0 ? "not there" : "there");
            return workshop::units_text(line.form, line.bulk_is_mass, n);
        };
        const std::int64_t difference = line.counted - line.in_book;
        std::string change;
        if (difference != 0)
            change = line.form == base::Form::bulk ? workshop::thousandths_text(difference)
                                                   : fmt::format("{:+}", difference);
        missing += line.value;
        table.row({line.code, line.name, units(line.counted), units(line.in_book), change,
                   line.value.is_zero() ? "" : base::to_text(line.value, sheet.settings.currency)});
    }
    text += sheet.lines.empty() ? "Nothing is entered yet.\n" : table.text();
    if (!sheet.not_counted.empty()) {
        std::string codes;
        for (const std::string& code : sheet.not_counted) codes += " " + code;
        text += "\n" + wrapped("Still to count:" + codes, 96, 2) + "\n";
    }
    if (open)
        text += fmt::format("\nMissing in all: {}. To correct the book: barrow stocktake post\n",
                            with_currency(missing, sheet.settings.currency));
    return text;
}

} // namespace barrow::print
