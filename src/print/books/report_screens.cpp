#include "print/books/report_screens.hpp"

#include "base/text.hpp"
#include "print/text/table.hpp"
#include "print/text/words.hpp"
#include "workshop/shared/quantity_text.hpp"

#include <fmt/format.h>

namespace barrow::print {
namespace {

using workshop::Amount;
using workshop::StockLine;

std::string on_shelf(const StockLine& line) {
    return workshop::units_text(line.material.form, line.material.bulk_unit == "g", line.units);
}

std::string in_box(const StockLine& line, base::Unit unit) {
    if (line.offcuts == 0) return {};
    return fmt::format("{} ({})", line.offcuts,
                       measure_text(line.material.form, false, line.offcut_quantity, unit));
}

std::string counted(std::int64_t number, const char* what) {
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

std::string screen(const workshop::StockOn& on) {
    const workshop::Stock& stock = on.stock;
    const base::Currency& currency = stock.settings.currency;
    Table table({{"Code"},
                 {"Material"},
                 {"On the shelf", Align::right},
                 {"Offcuts", Align::right},
                 {"Value", Align::right}});
    for (const StockLine& line : stock.lines)
        table.row({line.material.code, line.material.name, on_shelf(line),
                   in_box(line, stock.settings.unit),
                   base::to_text(line.shelf_value + line.offcut_value, currency)});
    std::string text = fmt::format("Stock at the end of {}\n\n", base::to_text(on.on));
    if (!table.empty()) text += table.text() + "\n";
    text += fmt::format("Materials worth {} in all, offcuts included.\n",
                        with_currency(stock.value, currency));
    if (!on.in_work.is_zero())
        text += fmt::format("In work: materials worth {}.\n", base::to_text(on.in_work, currency));
    if (on.journals > 0)
        text += fmt::format("Finished: {}, materials worth {}.\n", counted(on.journals, "journal"),
                            base::to_text(on.in_journals, currency));
    return text;
}

std::string screen(const workshop::Usage& usage) {
    const std::string period =
        fmt::format("{} to {}", base::to_text(usage.from), base::to_text(usage.to));
    if (usage.lines.empty()) return "Nothing was used from " + period + ".\n";
    const base::Currency& currency = usage.settings.currency;
    Table table({{"Month"},
                 {"Code"},
                 {"Material"},
                 {"In journals", Align::right},
                 {"Value", Align::right},
                 {"Kept as offcuts", Align::right},
                 {"Value", Align::right},
                 {"Written off", Align::right},
                 {"Value", Align::right}});
    const auto value = [&](const Amount& amount) {
        return amount.quantity == 0 && amount.value.is_zero()
                   ? std::string()
                   : base::to_text(amount.value, currency);
    };
    std::string month;
    for (const workshop::UsageLine& line : usage.lines) {
        if (!month.empty() && line.month != month) table.gap();
        const auto amount = [&](const Amount& own) {
            return signed_measure(line, own, usage.settings.unit);
        };
        table.row({line.month == month ? std::string() : line.month, line.material, line.name,
                   amount(line.in_journals), value(line.in_journals), amount(line.kept),
                   value(line.kept), amount(line.written_off), value(line.written_off)});
        month = line.month;
    }
    return fmt::format("Used from {}\n\n{}\nIn journals {}, kept as offcuts {}, written off {}.\n",
                       period, table.text(), with_currency(usage.in_journals, currency),
                       base::to_text(usage.kept, currency),
                       base::to_text(usage.written_off, currency));
}

std::string screen(const workshop::SlowStock& slow) {
    if (slow.lines.empty())
        return fmt::format("Everything on hand was used within the last {}, or came in since.\n",
                           counted(slow.days, "day"));
    const base::Currency& currency = slow.settings.currency;
    Table table({{"Code"},
                 {"Material"},
                 {"On the shelf", Align::right},
                 {"Offcuts", Align::right},
                 {"Value", Align::right},
                 {"Last used"},
                 {"Lying for", Align::right},
                 {""}});
    for (const workshop::SlowLine& line : slow.lines)
        table.row({line.stock.material.code, line.stock.material.name, on_shelf(line.stock),
                   in_box(line.stock, slow.settings.unit),
                   base::to_text(line.stock.shelf_value + line.stock.offcut_value, currency),
                   line.last_use ? base::to_text(*line.last_use) : "never", age_text(line.days),
                   line.dead ? "dead" : "slow"});
    return table.text()
           + fmt::format("\n{} not used for {} or more, worth {}.\n"
                         "Dead: nothing was used since the oldest of it came in.\n",
                         counted(static_cast<std::int64_t>(slow.lines.size()), "material"),
                         counted(slow.days, "day"), with_currency(slow.value, currency));
}

std::string screen(const workshop::BoxByAge& box) {
    if (box.lines.empty()) return "The offcut box is empty.\n";
    const base::Currency& currency = box.settings.currency;
    const base::Unit unit = box.settings.unit;
    Table lines({{"Label"},
                 {"Material"},
                 {""},
                 {"Size", Align::right},
                 {"Value", Align::right},
                 {"Kept on"},
                 {"Kept for"},
                 {"Place"}});
    for (const workshop::OffcutLine& line : box.lines)
        lines.row({line.there.offcut.code, line.material, line.material_name,
                   size_text(line.form, line.there.offcut.size, unit),
                   base::to_text(line.there.value, currency),
                   base::to_text(line.there.offcut.kept_on), age_text(line.age_days),
                   line.there.offcut.place});
    Table materials({{"Code"},
                     {"Material"},
                     {"Offcuts", Align::right},
                     {"In all", Align::right},
                     {"Value", Align::right}});
    for (const workshop::BoxSum& sum : box.materials)
        materials.row({sum.code, sum.name, std::to_string(sum.offcuts),
                       measure_text(sum.form, false, sum.quantity, unit),
                       base::to_text(sum.value, currency)});
    Table ages({{"Kept for"}, {"Offcuts", Align::right}, {"Value", Align::right}});
    for (const workshop::BoxSum& sum : box.ages)
        ages.row({sum.code, std::to_string(sum.offcuts), base::to_text(sum.value, currency)});
    return lines.text() + "\n" + materials.text() + "\n" + ages.text()
           + fmt::format("\n{}, worth {}.\n",
                         counted(static_cast<std::int64_t>(box.lines.size()), "offcut"),
                         with_currency(box.value, currency));
}

} // namespace barrow::print
