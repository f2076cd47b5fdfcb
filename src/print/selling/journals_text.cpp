#include "print/selling/journals.hpp"

#include "base/text.hpp"
#include "print/making/papers.hpp"
#include "print/text/words.hpp"
#include "print/write/terminal.hpp"
#include "workshop/shared/quantity_text.hpp"

#include <fmt/format.h>

namespace barrow::print {
namespace {

using base::Money;
using store::Journal;

std::string number_of_journals(std::size_t number) {
    return base::counted(static_cast<long long>(number), "journal");
}

Cell serial(const Journal& journal) {
    return link(Link::To::journal, journal.serial);
}

} // namespace

Blocks blocks(const workshop::Journals& journals) {
    Blocks blocks("Finished journals");
    if (journals.lines.empty()) {
        blocks.add(Text{"No finished journals in hand."});
        return blocks;
    }
    Table table({{"Journal", Kind::label},
                 {"Design", Kind::label},
                 {"", Kind::text, false, "Design name"},
                 {"Place"},
                 {"Condition"},
                 {"Materials", Kind::money},
                 {"Labour", Kind::money},
                 {"Overheads", Kind::money},
                 {"Cost", Kind::money},
                 {"Ask", Kind::money},
                 {"Papers", Kind::text, true},
                 {"Note", Kind::text, true}});
    const base::Currency& currency = journals.settings.currency;
    Money total;
    for (std::size_t i = 0; i < journals.lines.size(); ++i) {
        const store::JournalOnHand& line = journals.lines[i];
        const Journal& journal = line.journal;
        total += journal.cost();
        table.row({serial(journal), link(Link::To::design, line.design_code), line.design_name,
                   journal.place, journal.second ? "second" : "",
                   money(journal.materials, currency), money(journal.labour, currency),
                   money(journal.overheads, currency), money(journal.cost(), currency),
                   money(journals.asked[i], currency), papers_text(journal.papers), journal.note});
    }
    blocks.add(table);
    blocks.add(
        Text{fmt::format("{} in hand, which cost {}.", number_of_journals(journals.lines.size()),
                         with_currency(total, currency))});
    return blocks;
}

std::string screen(const workshop::Journals& journals) {
    return terminal(blocks(journals));
}

Blocks blocks(const std::vector<Journal>& changed, const workshop::Settings& settings) {
    Table table({{"Journal", Kind::label},
                 {"Place"},
                 {"Condition"},
                 {"Price", Kind::money},
                 {"Note", Kind::text, true}});
    for (const Journal& journal : changed)
        table.row({serial(journal), journal.place, journal.second ? "second" : "good",
                   money(journal.price, settings.currency), journal.note});
    Blocks blocks("Journals");
    blocks.add(table);
    return blocks;
}

std::string screen(const std::vector<Journal>& changed, const workshop::Settings& settings) {
    return terminal(blocks(changed, settings));
}

Blocks blocks(const workshop::JournalsLeft& left, const std::string& what) {
    const base::Currency& currency = left.settings.currency;
    Table table({{"Journal", Kind::label},
                 {"Materials", Kind::money},
                 {"Cost", Kind::money},
                 {"Price", Kind::money}});
    Money taken;
    for (std::size_t i = 0; i < left.journals.size(); ++i) {
        const Journal& journal = left.journals[i];
        const bool sold = i < left.prices.size();
        if (sold) taken += left.prices[i];
        table.row({serial(journal), money(journal.materials, currency),
                   money(journal.cost(), currency),
                   sold ? money(left.prices[i], currency) : Cell()});
    }
    const std::string sum =
        left.prices.empty()
            ? fmt::format("materials worth {} written off", with_currency(left.value, currency))
            : fmt::format("{} taken, for materials that cost {}", with_currency(taken, currency),
                          base::to_text(left.value, currency));
    Blocks blocks("Journals " + what);
    blocks.add(table);
    blocks.add(
        Text{fmt::format("{} {} on {}, {} (entry {}).", number_of_journals(left.journals.size()),
                         what, base::to_text(left.day), sum, left.posting)});
    return blocks;
}

std::string screen(const workshop::JournalsLeft& left, const std::string& what) {
    return terminal(blocks(left, what));
}

Blocks blocks(const workshop::TakenApart& apart) {
    const workshop::Settings& settings = apart.settings;
    Table table({{"Came back", Kind::label},
                 {"", Kind::text, false, "Material"},
                 {"", Kind::quantity, false, "Amount"},
                 {"Where to"},
                 {"Worth", Kind::money}});
    for (const workshop::CameBack& back : apart.parts)
        table.row({link(Link::To::material, back.material), back.material_name,
                   back.offcut ? size_text(back.form, back.offcut->size, settings.unit)
                               : workshop::units_text(back.form, back.bulk_is_mass, back.units),
                   back.offcut ? "offcut box, label it " + back.offcut->code : "shelf",
                   money(back.value, settings.currency)});
    Blocks blocks("Journal " + apart.journal.serial + " taken apart");
    blocks.add(table);
    blocks.add(Text{fmt::format(
        "Journal {} is taken apart; the rest of it, {}, is written off (entry {}).",
        apart.journal.serial, with_currency(apart.written_off, settings.currency), apart.posting)});
    return blocks;
}

std::string screen(const workshop::TakenApart& apart) {
    return terminal(blocks(apart));
}

} // namespace barrow::print
