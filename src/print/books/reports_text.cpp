#include "print/books/reports.hpp"

#include "base/text.hpp"
#include "print/stock/stock.hpp"
#include "print/text/words.hpp"
#include "print/write/terminal.hpp"
#include "workshop/shared/quantity_text.hpp"

#include <fmt/format.h>

namespace barrow::print {
namespace {

using workshop::Amount;
using workshop::StockLine;

std::string on_shelf(const StockLine& line) {
    return workshop::units_text(line.material.form, line.material.bulk_unit == "g", line.units);
}

std::string some(std::int64_t number, const char* what) {
    return base::counted(static_cast<long long>(number), what);
}

/// "3.2 m", "-2": also for what is below zero.
std::string signed_measure(const workshop::UsageLine& line, const Amount& amount, base::Unit unit) {
    if (amount.quantity == 0) return {};
    const std::int64_t size = amount.quantity < 0 ? -amount.quantity : amount.quantity;
    return (amount.quantity < 0 ? "-" : "")
           + measure_text(line.form, line.bulk_is_mass, size, unit);
}

} // namespace

Blocks blocks(const workshop::StockOn& on) {
    const workshop::Stock& stock = on.stock;
    const base::Currency& currency = stock.settings.currency;
    Table table({{"Code", Kind::label},
                 {"Material"},
                 {"On the shelf", Kind::quantity},
                 {"Offcuts", Kind::quantity},
                 {"Value", Kind::money}});
    for (const StockLine& line : stock.lines)
        table.row({link(Link::To::material, line.material.code), line.material.name, on_shelf(line),
                   offcuts_text(line, stock.settings.unit),
                   money(line.shelf_value + line.offcut_value, currency)});
    Blocks blocks("Stock on " + base::to_text(on.on));
    blocks.add(Heading{"Stock at the end of " + base::to_text(on.on)});
    blocks.add(table);
    blocks.add(Text{fmt::format("Materials worth {} in all, offcuts included.",
                                with_currency(stock.value, currency))});
    if (!on.in_work.is_zero())
        blocks.under(
            Text{fmt::format("In work: materials worth {}.", base::to_text(on.in_work, currency))});
    if (on.journals > 0)
        blocks.under(
            Text{fmt::format("Finished: {}, materials worth {}.", some(on.journals, "journal"),
                             base::to_text(on.in_journals, currency))});
    return blocks;
}

std::string screen(const workshop::StockOn& on) {
    return terminal(blocks(on));
}

Blocks blocks(const workshop::Usage& usage) {
    Blocks blocks("Materials used");
    const std::string period =
        fmt::format("{} to {}", base::to_text(usage.from), base::to_text(usage.to));
    if (usage.lines.empty()) {
        blocks.add(Text{"Nothing was used from " + period + "."});
        return blocks;
    }
    const base::Currency& currency = usage.settings.currency;
    Table table({{"Month"},
                 {"Code", Kind::label},
                 {"Material"},
                 {"In journals", Kind::quantity},
                 {"Value", Kind::money, false, "Value in journals"},
                 {"Kept as offcuts", Kind::quantity},
                 {"Value", Kind::money, false, "Value kept as offcuts"},
                 {"Written off", Kind::quantity},
                 {"Value", Kind::money, false, "Value written off"}});
    const auto value = [&](const Amount& amount) {
        return amount.quantity == 0 && amount.value.is_zero() ? Cell()
                                                              : money(amount.value, currency);
    };
    std::string month;
    for (const workshop::UsageLine& line : usage.lines) {
        if (!month.empty() && line.month != month) table.gap();
        const auto amount = [&](const Amount& own) {
            return signed_measure(line, own, usage.settings.unit);
        };
        table.row({line.month == month ? std::string() : line.month,
                   link(Link::To::material, line.material), line.name, amount(line.in_journals),
                   value(line.in_journals), amount(line.kept), value(line.kept),
                   amount(line.written_off), value(line.written_off)});
        month = line.month;
    }
    blocks.add(Heading{"Used from " + period});
    blocks.add(table);
    blocks.add(Text{fmt::format("In journals {}, kept as offcuts {}, written off {}.",
                                with_currency(usage.in_journals, currency),
                                base::to_text(usage.kept, currency),
                                base::to_text(usage.written_off, currency))});
    return blocks;
}

std::string screen(const workshop::Usage& usage) {
    return terminal(blocks(usage));
}

Blocks blocks(const workshop::SlowStock& slow) {
    Blocks blocks("Materials not used");
    if (slow.lines.empty()) {
        blocks.add(Text{fmt::format("Everything on hand was used or came in within the last {}.",
                                    some(slow.days, "day"))});
        return blocks;
    }
    const base::Currency& currency = slow.settings.currency;
    Table table({{"Code", Kind::label},
                 {"Material"},
                 {"On the shelf", Kind::quantity},
                 {"Offcuts", Kind::quantity},
                 {"Value", Kind::money},
                 {"Last used", Kind::date},
                 {"Not used for", Kind::quantity},
                 {"", Kind::text, false, "Slow or dead"}});
    for (const workshop::SlowLine& line : slow.lines)
        table.row({link(Link::To::material, line.stock.material.code), line.stock.material.name,
                   on_shelf(line.stock), offcuts_text(line.stock, slow.settings.unit),
                   money(line.stock.shelf_value + line.stock.offcut_value, currency),
                   line.last_use ? date(*line.last_use) : Cell("never"), age_text(line.days),
                   line.dead ? "dead" : "slow"});
    blocks.add(table);
    blocks.add(Text{fmt::format("{} not used for {} or more, worth {}.",
                                some(static_cast<std::int64_t>(slow.lines.size()), "material"),
                                some(slow.days, "day"), with_currency(slow.value, currency))});
    blocks.under(Text{"Dead: none of it was used since the oldest of it came in."});
    return blocks;
}

std::string screen(const workshop::SlowStock& slow) {
    return terminal(blocks(slow));
}

namespace {

Table aged_table(const workshop::BoxByAge& box) {
    Table table({{"Label", Kind::label},
                 {"Material", Kind::label, false, "Code"},
                 {"", Kind::text, false, "Material"},
                 {"Size", Kind::length},
                 {"Value", Kind::money},
                 {"Kept on", Kind::date},
                 {"Age"},
                 {"Place"}});
    for (const workshop::OffcutLine& line : box.lines)
        table.row({link(Link::To::offcut, line.there.offcut.code),
                   link(Link::To::material, line.material), line.material_name,
                   size_text(line.form, line.there.offcut.size, box.settings.unit),
                   money(line.there.value, box.settings.currency), date(line.there.offcut.kept_on),
                   age_text(line.age_days), line.there.offcut.place});
    return table;
}

} // namespace

Blocks blocks(const workshop::BoxByAge& box) {
    Blocks blocks("Offcut box by age");
    if (box.lines.empty()) {
        blocks.add(Text{"The offcut box is empty."});
        return blocks;
    }
    const base::Currency& currency = box.settings.currency;
    Table materials({{"Code", Kind::label},
                     {"Material"},
                     {"Offcuts", Kind::count},
                     {"Total", Kind::quantity},
                     {"Value", Kind::money}});
    for (const workshop::BoxSum& sum : box.materials)
        materials.row({link(Link::To::material, sum.code), sum.name, count(sum.offcuts),
                       measure_text(sum.form, false, sum.quantity, box.settings.unit),
                       money(sum.value, currency)});
    Table ages({{"Age"}, {"Offcuts", Kind::count}, {"Value", Kind::money}});
    for (const workshop::BoxSum& sum : box.ages)
        ages.row({sum.code, count(sum.offcuts), money(sum.value, currency)});
    blocks.add(aged_table(box));
    blocks.add(materials);
    blocks.add(ages);
    blocks.add(Text{fmt::format("{}, worth {}.",
                                some(static_cast<std::int64_t>(box.lines.size()), "offcut"),
                                with_currency(box.value, currency))});
    return blocks;
}

std::string screen(const workshop::BoxByAge& box) {
    return terminal(blocks(box));
}

} // namespace barrow::print
