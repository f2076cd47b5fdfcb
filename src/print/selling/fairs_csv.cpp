#include "print/selling/fairs.hpp"

#include "print/csv/csv_text.hpp"

namespace barrow::print {

using base::Money;
using workshop::FairView;

std::string csv(const FairView& view) {
    const base::Currency& currency = view.settings.currency;
    CsvText text({"fair", "day", "journal", "design", "materials", "labour", "overheads", "asked",
                  "sold_for"});
    const auto money = [&](Money amount) {
        return CsvCell::number(base::to_text(amount, currency));
    };
    for (std::size_t i = 0; i < view.fair.journals.size(); ++i) {
        const store::FairJournal& one = view.fair.journals[i];
        text.row({CsvCell::number(std::to_string(view.fair.number)),
                  base::to_text(view.fair.held_on), one.journal.serial, one.design_name,
                  money(one.journal.materials), money(one.journal.labour),
                  money(one.journal.overheads),
                  view.asked[i] ? money(*view.asked[i]) : CsvCell::number(""),
                  one.sold_for ? money(*one.sold_for) : CsvCell::number("")});
    }
    return text.text();
}

std::string csv(const workshop::Fairs& fairs) {
    CsvText text(
        {"fair", "day", "name", "taken_along", "sold", "takings", "materials", "costs", "left"});
    for (const FairView& view : fairs.fairs) {
        const auto money = [&](Money amount) {
            return CsvCell::number(base::to_text(amount, view.settings.currency));
        };
        const auto number = [](std::int64_t count) {
            return CsvCell::number(std::to_string(count));
        };
        text.row({number(view.fair.number), base::to_text(view.fair.held_on), view.fair.name,
                  number(static_cast<std::int64_t>(view.fair.journals.size())), number(view.sold),
                  money(view.takings), money(view.materials), money(view.costs),
                  money(view.left())});
    }
    return text.text();
}

} // namespace barrow::print
