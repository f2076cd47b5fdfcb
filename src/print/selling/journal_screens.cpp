#include "print/selling/journal_screens.hpp"

#include "base/text.hpp"
#include "print/making/papers.hpp"
#include "print/text/table.hpp"
#include "print/text/words.hpp"
#include "workshop/shared/quantity_text.hpp"

#include <fmt/format.h>

namespace barrow::print {
namespace {

using base::Money;
using store::Journal;

std::string price_text(const Journal& journal, const base::Currency& currency) {
    return journal.price ? base::to_text(*journal.price, currency) : std::string();
}

std::string journals_text(std::size_t number) {
    return base::counted(static_cast<long long>(number), "journal");
}

} // namespace

std::string screen(const workshop::Journals& journals) {
    if (journals.lines.empty()) return "No finished journals in hand.\n";
    Table table({{"Journal"},
                 {"Design"},
                 {""},
                 {"Place"},
                 {"Condition"},
                 {"Materials", Align::right},
                 {"Labour", Align::right},
                 {"Overheads", Align::right},
                 {"Cost", Align::right},
                 {"Price", Align::right},
                 {"Papers", Align::left, true},
                 {"Note", Align::left, true}});
    const base::Currency& currency = journals.settings.currency;
    Money total;
    for (const store::JournalOnHand& line : journals.lines) {
        const Journal& journal = line.journal;
        total += journal.cost();
        table.row({journal.serial, line.design_code, line.design_name, journal.place,
                   journal.second ? "second" : "", base::to_text(journal.materials, currency),
                   base::to_text(journal.labour, currency),
                   base::to_text(journal.overheads, currency),
                   base::to_text(journal.cost(), currency), price_text(journal, currency),
                   papers_text(journal.papers), journal.note});
    }
    return table.text()
           + fmt::format("\n{} in hand, which cost {}.\n", journals_text(journals.lines.size()),
                         with_currency(total, currency));
}

std::string screen(const std::vector<Journal>& changed, const workshop::Settings& settings) {
    Table table({{"Journal"},
                 {"Place"},
                 {"Condition"},
                 {"Price", Align::right},
                 {"Note", Align::left, true}});
    for (const Journal& journal : changed)
        table.row({journal.serial, journal.place, journal.second ? "second" : "good",
                   price_text(journal, settings.currency), journal.note});
    return table.text();
}

std::string screen(const workshop::JournalsLeft& left, const std::string& what) {
    const base::Currency& currency = left.settings.currency;
    Table table({{"Journal"},
                 {"Materials", Align::right},
                 {"Cost", Align::right},
                 {"Price", Align::right}});
    Money taken;
    for (std::size_t i = 0; i < left.journals.size(); ++i) {
        const Journal& journal = left.journals[i];
        const bool sold = i < left.prices.size();
        if (sold) taken += left.prices[i];
        table.row({journal.serial, base::to_text(journal.materials, currency),
                   base::to_text(journal.cost(), currency),
                   sold ? base::to_text(left.prices[i], currency) : std::string()});
    }
    const std::string money =
        left.prices.empty()
            ? fmt::format("materials worth {} written off", with_currency(left.value, currency))
            : fmt::format("{} taken, for materials that cost {}", with_currency(taken, currency),
                          base::to_text(left.value, currency));
    return table.text()
           + fmt::format("\n{} {} on {}, {} (entry {}).\n", journals_text(left.journals.size()),
                         what, base::to_text(left.day), money, left.posting);
}

std::string screen(const workshop::TakenApart& apart) {
    const workshop::Settings& settings = apart.settings;
    Table table({{"Came back"}, {""}, {"", Align::right}, {"Where to"}, {"Worth", Align::right}});
    for (const workshop::CameBack& back : apart.parts)
        table.row({back.material, back.material_name,
                   back.offcut ? size_text(back.form, back.offcut->size, settings.unit)
                               : workshop::units_text(back.form, back.bulk_is_mass, back.units),
                   back.offcut ? "offcut box, label it " + back.offcut->code : "shelf",
                   base::to_text(back.value, settings.currency)});
    return table.text()
           + fmt::format("\nJournal {} is taken apart; the rest of it, {}, is written off "
                         "(entry {}).\n",
                         apart.journal.serial, with_currency(apart.written_off, settings.currency),
                         apart.posting);
}

} // namespace barrow::print
