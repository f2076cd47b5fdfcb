// Orders and fairs: entries that move nothing, and others that belong to them.

#include "model/book.hpp"

#include <algorithm>

namespace model {

bool Book::begun(Count supply, Count fair) const {
    return std::any_of(entries.begin(), entries.end(), [&](const Entry& entry) {
        return entry.begins && entry.supply == supply && entry.fair == fair && stands(entry.id);
    });
}

bool Book::ended(Count supply) const {
    return std::any_of(entries.begin(), entries.end(), [&](const Entry& entry) {
        return entry.ends && entry.supply == supply && stands(entry.id);
    });
}

Count Book::came(Count supply, Count material) const {
    Count units = 0;
    for (const Lot& lot : lots) {
        if (lot.entry == 0) continue; // found at a count
        const Entry& entry = entries.at(static_cast<std::size_t>(lot.entry - 1));
        if (entry.supply == supply && lot.material == material && stands(entry.id))
            units += lot.received.quantity / lot.unit;
    }
    return units;
}

Count Book::sent_back(Count supply, Count material) const {
    Count units = 0;
    for (const Entry& entry : entries) {
        if (entry.kind != "return" || !stands(entry.id)) continue;
        for (const Move& move : entry.moves) {
            if (move.from != move.lot || move.to != outside) continue;
            const Lot& from = lot(move.from);
            if (from.entry == 0 || from.material != material) continue;
            if (entries.at(static_cast<std::size_t>(from.entry - 1)).supply == supply)
                units += move.what.quantity / from.unit;
        }
    }
    return units;
}

Count Book::to_come(const Supply& supply) const {
    Count units = 0;
    for (const Asked& line : supply.lines)
        units += std::max<Count>(0, line.units - came(supply.number, line.material));
    return units;
}

std::vector<Count> Book::sold_at(Count fair) const {
    std::vector<Count> which;
    for (const Entry& entry : entries) {
        if (entry.fair != fair || entry.kind != "sell" || !stands(entry.id)) continue;
        for (const Move& move : entry.moves) which.push_back(move.from);
    }
    return which;
}

std::vector<Count> Book::listed(Count fair) const {
    std::vector<Count> which = sold_at(fair);
    for (const Entry& entry : entries)
        if (entry.fair == fair && stands(entry.id))
            which.insert(which.end(), entry.listed.begin(), entry.listed.end());
    std::sort(which.begin(), which.end());
    which.erase(std::unique(which.begin(), which.end()), which.end());
    return which;
}

void Book::order_supplies(Count day, const std::vector<Asked>& lines) {
    for (std::size_t i = 1; i < lines.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
            if (lines[i].material == lines[j].material) throw Refused("asked for twice");
    supplies.push_back({static_cast<Count>(supplies.size()) + 1, lines});
    // What comes without being named comes in the order of the codes.
    std::sort(supplies.back().lines.begin(), supplies.back().lines.end(),
              [&](const Asked& a, const Asked& b) {
                  return material(a.material).code < material(b.material).code;
              });
    Entry& entry = open("order", day);
    entry.supply = supplies.back().number;
    entry.begins = true;
}

void Book::order_comes(Count day, Count number, std::vector<Coming> what, Count freight) {
    const Supply& supply = supplies.at(static_cast<std::size_t>(number - 1));
    if (!begun(number, 0)) throw Refused("the order was taken back");
    if (ended(number) && to_come(supply) > 0) throw Refused("the order was ended");
    const bool whole = what.empty();
    if (whole)
        for (const Asked& line : supply.lines)
            if (line.units > came(number, line.material))
                what.push_back({line.material, line.units - came(number, line.material), -1});
    if (what.empty()) throw Refused("nothing is to come");
    std::vector<ReceiptLine> lines;
    std::map<Count, Count> with_this; // two rows of one line are two parts of it
    for (Coming& one : what) {
        const auto asked =
            std::find_if(supply.lines.begin(), supply.lines.end(),
                         [&](const Asked& line) { return line.material == one.material; });
        if (asked == supply.lines.end()) throw Refused("not asked for");
        const auto up_to = [&](Count units) {
            return (2 * asked->cost * units + asked->units) / (2 * asked->units);
        };
        const Count before = came(number, one.material) + with_this[one.material];
        with_this[one.material] += one.units;
        if (one.cost < 0) one.cost = up_to(before + one.units) - up_to(before);
        lines.push_back({one.material, one.units, one.cost});
    }
    receive(day, lines, freight, true);
    entries.back().supply = number;
}

void Book::order_ends(Count day, Count number) {
    const Supply& supply = supplies.at(static_cast<std::size_t>(number - 1));
    if (!begun(number, 0) || to_come(supply) == 0 || ended(number))
        throw Refused("nothing is to come");
    Entry& entry = open("order end", day);
    entry.supply = number;
    entry.ends = true;
}

void Book::note_fair(Count day, Count held_on) {
    fairs.push_back({static_cast<Count>(fairs.size()) + 1, held_on});
    Entry& entry = open("fair", day);
    entry.fair = fairs.back().number;
    entry.begins = true;
}

void Book::take_to_fair(Count day, Count number, const std::vector<Count>& which) {
    if (!begun(0, number)) throw Refused("the fair was taken back");
    const auto there = listed(number);
    for (const Count journal : which) {
        if (pile(journal, 0).quantity == 0) throw Refused("the journal is not in hand");
        if (std::count(there.begin(), there.end(), journal) > 0) throw Refused("listed already");
    }
    Entry& entry = open("fair take", day);
    entry.fair = number;
    entry.listed = which;
}

void Book::sell_at_fair(Count day, Count number, const std::vector<Count>& which) {
    const Count held_on = fairs.at(static_cast<std::size_t>(number - 1)).day;
    if (!begun(0, number) || held_on > day) throw Refused("the fair was taken back or is to come");
    journals_leave(held_on, "sell", which, sold);
    entries.back().fair = number;
}

/// What an order or a fair began with is not taken back under what belongs to it, and nothing of it
/// comes back without that.
void Book::refuse_without_ground(const Entry& origin) const {
    if (origin.supply == 0 && origin.fair == 0) return;
    if (!stands(origin.id)) {
        if (!origin.begins && !begun(origin.supply, origin.fair))
            throw Refused("what it belongs to was taken back");
        return;
    }
    if (!origin.begins) return;
    for (const Entry& entry : entries)
        if (entry.id != origin.id && entry.supply == origin.supply && entry.fair == origin.fair
            && stands(entry.id))
            throw Refused("something of it has been booked since");
}

} // namespace model
