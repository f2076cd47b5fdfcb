#include "print/books/reports.hpp"

#include "print/csv/csv_text.hpp"
#include "print/csv/quantity.hpp"
#include "print/json/values.hpp"
#include "print/text/words.hpp"
#include "workshop/shared/quantity_text.hpp"

namespace barrow::print {
namespace {

using base::Form;
using base::Money;
using workshop::StockLine;

CsvCell whole(std::int64_t value) {
    return CsvCell::number(std::to_string(value));
}

CsvCell units(const StockLine& line) {
    return line.material.form == Form::bulk
               ? CsvCell::number(workshop::thousandths_text(line.units))
               : whole(line.units);
}

/// Writes money in the currency of the shop.
struct MoneyCells {
    const base::Currency& currency;
    CsvCell operator()(Money amount) const {
        return CsvCell::number(base::to_text(amount, currency));
    }
};

} // namespace

std::string csv(const workshop::StockOn& on) {
    const MoneyCells money{on.stock.settings.currency};
    CsvText text({"on", "code", "name", "form", "on_hand", "unit", "offcuts", "shelf_value",
                  "offcut_value", "value"});
    for (const StockLine& line : on.stock.lines) {
        const store::Material& m = line.material;
        text.row({base::to_text(on.on), m.code, m.name, std::string(base::name_of(m.form)),
                  units(line), workshop::unit_word(m.form, m.bulk_unit == "g"), whole(line.offcuts),
                  money(line.shelf_value), money(line.offcut_value),
                  money(line.shelf_value + line.offcut_value)});
    }
    return text.text();
}

std::string csv(const workshop::Usage& usage) {
    const MoneyCells money{usage.settings.currency};
    CsvText text({"month", "material", "name", "unit", "in_journals", "in_journals_value", "kept",
                  "kept_value", "written_off", "written_off_value"});
    for (const workshop::UsageLine& line : usage.lines) {
        const auto quantity = [&](const workshop::Amount& amount) {
            return CsvCell::number(plain_quantity(line.form, amount.quantity));
        };
        text.row({line.month, line.material, line.name, quantity_unit(line.form, line.bulk_is_mass),
                  quantity(line.in_journals), money(line.in_journals.value), quantity(line.kept),
                  money(line.kept.value), quantity(line.written_off),
                  money(line.written_off.value)});
    }
    return text.text();
}

std::string csv(const workshop::SlowStock& slow) {
    const MoneyCells money{slow.settings.currency};
    CsvText text({"code", "name", "form", "on_hand", "unit", "offcuts", "value", "last_use",
                  "since", "days", "state"});
    for (const workshop::SlowLine& line : slow.lines) {
        const store::Material& m = line.stock.material;
        text.row({m.code, m.name, std::string(base::name_of(m.form)), units(line.stock),
                  workshop::unit_word(m.form, m.bulk_unit == "g"), whole(line.stock.offcuts),
                  money(line.stock.shelf_value + line.stock.offcut_value),
                  line.last_use ? base::to_text(*line.last_use) : std::string(),
                  base::to_text(line.since), whole(line.days), line.dead ? "dead" : "slow"});
    }
    return text.text();
}

std::string csv(const workshop::BoxByAge& box) {
    const MoneyCells money{box.settings.currency};
    CsvText text({"code", "material", "name", "size", "quantity", "unit", "value", "kept_on",
                  "age_days", "place"});
    for (const workshop::OffcutLine& line : box.lines)
        text.row({line.there.offcut.code, line.material, line.material_name,
                  size_text(line.form, line.there.offcut.size, box.settings.unit),
                  CsvCell::number(plain_quantity(line.form, line.there.quantity)),
                  quantity_unit(line.form, false), money(line.there.value),
                  base::to_text(line.there.offcut.kept_on), whole(line.age_days),
                  line.there.offcut.place});
    return text.text();
}

std::string csv(const workshop::Year& year) {
    const MoneyCells money{year.settings.currency};
    CsvText text({"account", "what", "amount", "currency"});
    const auto row = [&](const char* account, const char* what, Money amount) {
        text.row({account, what, money(amount), year.settings.currency.code});
    };
    row("all", "opening", year.all().opening);
    row("all", "bought", year.bought);
    row("all", "closing", year.all().closing);
    row("all", "used", year.used());
    row("all", "sold", year.sold);
    row("all", "written off", year.written_off());
    row("materials", "opening", year.materials.opening);
    row("materials", "bought", year.bought);
    row("materials", "came back", year.came_back);
    row("materials", "put into work", year.put_to_work);
    row("materials", "written off", year.materials_lost);
    row("materials", "closing", year.materials.closing);
    row("work", "opening", year.work.opening);
    row("work", "put into work", year.put_to_work);
    row("work", "made", year.made);
    row("work", "given up", year.work_lost);
    row("work", "closing", year.work.closing);
    row("journals", "opening", year.journals.opening);
    row("journals", "made", year.made);
    row("journals", "came back", year.came_back);
    row("journals", "sold", year.sold);
    row("journals", "written off", year.journals_lost);
    row("journals", "closing", year.journals.closing);
    row("sales", "takings", year.takings);
    row("sales", "cost", year.sold);
    row("sales", "gross profit", year.gross_profit());
    row("sales", "what fairs cost", year.fairs);
    row("check", "difference", year.difference);
    return text.text();
}

} // namespace barrow::print
