#include "print/books/history.hpp"

#include "base/text.hpp"
#include "print/books/history_words.hpp"
#include "print/text/words.hpp"
#include "print/write/terminal.hpp"
#include "workshop/shared/quantity_text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::print {
namespace {

using workshop::HeldThen;
using workshop::History;
using workshop::HistoryLine;
using workshop::Subject;

const char* sign_of(const HistoryLine& line) {
    if (line.change == 0) return "";
    return line.change > 0 ? "+" : "-";
}

/// Whole units where they are whole, else the measure: "-4 sheets", "+0.042 m2".
std::string moved_text(const HistoryLine& line, base::Unit unit) {
    if (line.material.empty() || line.quantity == 0) return {};
    const std::string amount =
        line.units > 0 || line.form == base::Form::count
            ? workshop::units_text(line.form, line.bulk_is_mass,
                                   line.units > 0 ? line.units : line.quantity)
            : measure_text(line.form, line.bulk_is_mass, line.quantity, unit);
    return sign_of(line) + amount;
}

std::string value_text(const HistoryLine& line, const base::Currency& currency) {
    if (line.from_kind.empty()) return {};
    return sign_of(line) + base::to_text(line.value, currency);
}

std::string there_text(const History& history, const HeldThen& held) {
    const base::Unit unit = history.settings.unit;
    switch (history.of) {
    case Subject::material:
    case Subject::lot: {
        std::string text;
        if (held.units > 0 || held.offcuts == 0)
            text = workshop::units_text(history.form, history.bulk_is_mass, held.units);
        if (held.offcuts == 0) return text;
        if (!text.empty()) text += ", ";
        return text + measure_text(history.form, false, held.offcuts, unit) + " in offcuts";
    }
    case Subject::offcut: return measure_text(history.form, false, held.quantity, unit);
    case Subject::batch: return {};
    case Subject::journal: return held.quantity > 0 ? "in hand" : "gone";
    }
    return {};
}

/// The same for a line of the table, where what is in offcuts has a column of its own.
std::string on_shelf_text(const History& history, const HeldThen& held) {
    const bool lots = history.of == Subject::material || history.of == Subject::lot;
    if (!lots) return there_text(history, held);
    return workshop::units_text(history.form, history.bulk_is_mass, held.units);
}

std::string in_offcuts_text(const History& history, const HeldThen& held) {
    const bool lots = history.of == Subject::material || history.of == Subject::lot;
    if (!lots || held.offcuts == 0) return {};
    return measure_text(history.form, false, held.offcuts, history.settings.unit);
}

std::string title(const History& history) {
    std::string text = fmt::format("{} {}", workshop::name_of(history.of), history.code);
    text.front() = base::raised(text.substr(0, 1)).front();
    return history.name.empty() ? text : text + ", " + history.name;
}

/// Everyone who made an entry; one name is said once, below, instead of on every line.
std::string only_maker(const History& history) {
    const std::string& first = history.lines.front().posting.who;
    const bool alone =
        std::all_of(history.lines.begin(), history.lines.end(),
                    [&](const HistoryLine& line) { return line.posting.who == first; });
    return alone ? first : std::string();
}

void add_closing(Blocks& blocks, const History& history, const std::string& maker) {
    const HeldThen& held = history.lines.back().after;
    const std::string there = there_text(history, held);
    blocks.add(Text{(history.of == Subject::batch ? "In work now: " : "Now: " + there + ", ")
                    + "worth " + with_currency(held.value, history.settings.currency) + "."});
    const bool elsewhere =
        std::any_of(history.lines.begin(), history.lines.end(), [](const HistoryLine& line) {
            return line.change == 0 && !line.from_kind.empty();
        });
    if (elsewhere)
        blocks.under(
            Text{"+ came in, - went out; without a sign it moved on, and what is there stayed."});
    if (!maker.empty()) blocks.under(Text{"All entered by " + maker + "."});
}

} // namespace

Blocks blocks(const History& history) {
    Blocks blocks(title(history));
    if (history.lines.empty()) {
        blocks.add(Text{title(history) + ": nothing has happened to it yet."});
        return blocks;
    }
    const bool batch = history.of == Subject::batch;
    const std::string maker = only_maker(history);
    Table table({{"Entry", Kind::count},
                 {"Day", Kind::date},
                 {"What", Kind::text, true},
                 {batch ? "Material" : "", Kind::label, false, "Material"},
                 {"Moved", Kind::quantity},
                 {"Value", Kind::money},
                 {"There then", Kind::quantity},
                 {"In offcuts", Kind::quantity},
                 {"Worth", Kind::money},
                 {"By"},
                 {"Why", Kind::text, true}});
    for (const HistoryLine& line : history.lines)
        table.row({link(Link::To::entry, line.posting.id), date(line.posting.made_on),
                   history_words(line, history),
                   batch ? link(Link::To::material, line.material) : Cell(),
                   moved_text(line, history.settings.unit),
                   Cell(value_text(line, history.settings.currency), Kind::money),
                   on_shelf_text(history, line.after), in_offcuts_text(history, line.after),
                   money(line.after.value, history.settings.currency),
                   maker.empty() ? line.posting.who : std::string(), line.posting.note});
    blocks.add(Heading{title(history)});
    blocks.add(table);
    add_closing(blocks, history, maker);
    return blocks;
}

std::string screen(const History& history) {
    return terminal(blocks(history));
}

} // namespace barrow::print
