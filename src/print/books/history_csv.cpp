#include "print/books/history.hpp"

#include "print/books/history_words.hpp"
#include "print/csv/csv_text.hpp"
#include "print/csv/quantity.hpp"
#include "print/json/values.hpp"

namespace barrow::print {

std::string csv(const workshop::History& history) {
    const base::Currency& currency = history.settings.currency;
    CsvText text({"entry", "day", "recorded_at", "who", "note", "what", "material", "quantity",
                  "unit", "value", "quantity_change", "value_change", "quantity_after",
                  "value_after"});
    for (const workshop::HistoryLine& line : history.lines) {
        const bool lot = !line.material.empty();
        const base::Form form = lot ? line.form : base::Form::count;
        const bool still = line.from_kind.empty();
        const auto quantity = [&](std::int64_t value) {
            return CsvCell::number(still ? "" : plain_quantity(form, value));
        };
        const auto money = [&](base::Money value) {
            return CsvCell::number(still ? "" : base::to_text(value, currency));
        };
        const auto signed_value = base::Money::of_minor(line.change * line.value.minor());
        text.row({CsvCell::number(std::to_string(line.posting.id)),
                  base::to_text(line.posting.made_on), line.posting.recorded_at, line.posting.who,
                  line.posting.note, history_words(line, history), line.material,
                  quantity(line.quantity),
                  lot ? quantity_unit(form, line.bulk_is_mass) : std::string(), money(line.value),
                  quantity(line.change * line.quantity), money(signed_value),
                  quantity(line.after.quantity),
                  CsvCell::number(base::to_text(line.after.value, currency))});
    }
    return text.text();
}

} // namespace barrow::print
