#include "print/stock/stocktake.hpp"

#include "base/error.hpp"
#include "print/text/words.hpp"
#include "print/write/terminal.hpp"
#include "workshop/shared/quantity_text.hpp"

#include <fmt/format.h>

namespace barrow::print {
namespace {

using store::StocktakeStatus;

const char* status_of(StocktakeStatus status) {
    switch (status) {
    case StocktakeStatus::open: return "open";
    case StocktakeStatus::posted: return "posted";
    case StocktakeStatus::dropped: return "dropped";
    }
    throw base::broken("a stocktake in no state");
}

std::vector<Cell> count_row(const workshop::CountLine& line, const base::Currency& currency) {
    const auto units = [&](std::int64_t n) {
        if (line.offcut) return std::string(n == 0 ? "not there" : "there");
        return workshop::units_text(line.form, line.bulk_is_mass, n);
    };
    const std::int64_t difference = line.counted - line.in_book;
    std::string change;
    if (difference != 0)
        change = line.form == base::Form::bulk ? workshop::thousandths_text(difference)
                                               : fmt::format("{:+}", difference);
    return {link(line.offcut ? Link::To::offcut : Link::To::material, line.code),
            line.name,
            units(line.counted),
            units(line.in_book),
            change,
            line.value.is_zero() ? Cell() : money(line.value, currency)};
}

} // namespace

Blocks blocks(const workshop::CountSheet& sheet) {
    const bool open = sheet.stocktake.status == StocktakeStatus::open;
    Blocks blocks(fmt::format("Stocktake {}", sheet.stocktake.number));
    blocks.add(
        Heading{fmt::format("Stocktake {}, started {}{}: {}", sheet.stocktake.number,
                            base::to_text(sheet.stocktake.started_on),
                            sheet.stocktake.place.empty() ? "" : ", " + sheet.stocktake.place,
                            status_of(sheet.stocktake.status))});
    Table table({{"Code", Kind::label},
                 {"What"},
                 {"counted", Kind::quantity},
                 {"in the book", Kind::quantity},
                 {"difference", Kind::quantity},
                 {"missing value", Kind::money}});
    base::Money missing;
    for (const workshop::CountLine& line : sheet.lines) {
        missing += line.value;
        table.row(count_row(line, sheet.settings.currency));
    }
    blocks.add(table);
    if (sheet.lines.empty()) blocks.add(Text{"Nothing is counted yet."});
    std::string codes;
    for (const std::string& code : sheet.not_counted) codes += " " + code;
    if (!codes.empty()) blocks.add(Text{"Still to count:" + codes, 2});
    if (open)
        blocks.add(
            Text{fmt::format("Missing in all: {}. To correct the book: barrow stocktake post",
                             with_currency(missing, sheet.settings.currency))});
    return blocks;
}

std::string screen(const workshop::CountSheet& sheet) {
    return terminal(blocks(sheet));
}

} // namespace barrow::print
