// Buying, leaving, the offcut box, counts and reversals of the naive book.

#include "model/book.hpp"

#include <algorithm>

namespace model {

void Book::receive(Count day, const std::vector<ReceiptLine>& lines, Count extra, bool by_value) {
    Count paid = 0;
    for (const ReceiptLine& line : lines) paid += line.cost;
    std::vector<Wide> weights;
    for (const ReceiptLine& line : lines)
        weights.push_back(by_value && paid > 0 ? line.cost : line.units);
    const auto extras = model::split(extra, weights);
    open("receive", day);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        Lot lot;
        lot.id = next_holder_++;
        lot.material = lines[i].material;
        lot.unit = lines[i].unit != 0 ? lines[i].unit : material(lot.material).measure();
        lot.day = day;
        lot.entry = entries.back().id;
        lot.received = {lines[i].units * lot.unit, lines[i].cost + extras[i]};
        lot.extra = extras[i];
        lots.push_back(lot);
        move(outside, lot.id, lot.id, lot.received);
    }
}

void Book::return_lot(Count day, Count id, Count units, Count refund) {
    const Count quantity = units * lot(id).unit;
    if (quantity > free_of(id)) throw Refused("the lot holds less, or it is reserved");
    open("return", day);
    // Unless it is said what the supplier pays, that is the goods alone. Their cost beyond it is
    // lost.
    const Lot& own = lot(id);
    const auto takes = take(own.material, {{id, quantity}});
    Count worth = 0;
    std::vector<Wide> worths;
    for (const LotTake& one : takes) {
        worth += one.what.value;
        worths.push_back(one.what.value);
    }
    if (refund < 0) refund = share(own.received.value - own.extra, quantity, own.received.quantity);
    const auto paid = model::split(std::min(refund, worth), worths);
    for (std::size_t i = 0; i < takes.size(); ++i) {
        leave_shelf(takes[i].lot, outside, {takes[i].what.quantity, paid[i]});
        leave_shelf(takes[i].lot, written_off, {0, takes[i].what.value - paid[i]});
    }
    settle_emptied({lot(id).material});
}

void Book::write_off_units(Count day, Count material, Count units) {
    const auto takes = take(material, oldest_first(material, units, false));
    open("write off", day);
    for (const LotTake& one : takes) leave_shelf(one.lot, written_off, one.what);
}

void Book::write_off_offcut(Count day, Count id) {
    if (piles_of(id).empty()) throw Refused("the offcut is gone");
    if (reserved(id) > 0) throw Refused("a planned batch waits for the offcut");
    open("write off", day);
    for (const auto& [own, amount] : piles_of(id)) move(id, written_off, own, amount);
}

void Book::split(Count day, Count id, const std::vector<Remnant>& sizes) {
    const Offcut old = offcut(id);
    const auto held = piles_of(id);
    if (held.empty()) throw Refused("the offcut is gone");
    if (reserved(id) > 0) throw Refused("a planned batch waits for the offcut");
    open("split", day);
    std::vector<Wide> areas;
    std::vector<Count> ids;
    for (const Remnant& size : sizes) {
        areas.push_back(size.measure());
        ids.push_back(new_offcut(old.material, old.lot, size));
    }
    for (const auto& [own, amount] : held) {
        const auto values = model::split(amount.value, areas);
        for (std::size_t i = 0; i < sizes.size(); ++i)
            move(id, ids[i], own, {own == old.lot ? sizes[i].measure() : 0, values[i]});
    }
    move(id, written_off, old.lot, {all_of(id).quantity, 0});
}

void Book::find(Count day, Count material, const Remnant& size) {
    const auto [holder, own] = where_lost(material, size.measure(), 0);
    open("find", day);
    move(holder, new_offcut(material, own, size), own, {size.measure(), 0});
}

void Book::decide(Count day, Order order) {
    const Order before = this->order();
    open("cost order", day).order = order;
    if (before == Order::moving_average && order != before)
        for (const Material& one : materials) even_out(one.id);
}

void Book::journals_leave(Count day, const std::string& kind, const std::vector<Count>& which,
                          Count to) {
    for (const Count id : which) {
        if (pile(id, 0).quantity == 0) throw Refused("the journal is not in hand");
        if (day < last_day_of(id)) throw Refused("the journal was not there on that day");
    }
    open(kind, day);
    for (const Count id : which) move(id, to, 0, pile(id, 0));
}

/// Everything an entry moved goes back. It must still be there; and a batch goes back and forth
/// only from where it stands: not before its later steps were taken back, and a step taken back
/// returns only to the step it followed.
void Book::reverse(Count day, Count id) {
    const Entry original = entries.at(static_cast<std::size_t>(id - 1));
    if (original.reversed_by != 0) throw Refused("reversed already");
    Count origin = id;
    while (entries.at(static_cast<std::size_t>(origin - 1)).reverses != 0)
        origin = entries.at(static_cast<std::size_t>(origin - 1)).reverses;
    const Count batch = entries.at(static_cast<std::size_t>(origin - 1)).batch;
    if (batch != 0) {
        Count first = 0, last = 0;
        for (const Entry& entry : entries) {
            if (entry.batch != batch || entry.reverses != 0) continue;
            if (first == 0) first = entry.id;
            if (stands(entry.id)) last = entry.id;
        }
        if (last > origin) throw Refused("the batch has gone on since");
        if (!stands(origin) && origin != first && last == 0)
            throw Refused("the batch was undone altogether since");
    }
    refuse_without_ground(entries.at(static_cast<std::size_t>(origin - 1)));
    std::map<std::pair<Count, Count>, Amount> after = piles;
    for (const Move& step : original.moves) {
        Amount& from = after[{step.from, step.lot}];
        Amount& to = after[{step.to, step.lot}];
        from.quantity += step.what.quantity;
        from.value += step.what.value;
        to.quantity -= step.what.quantity;
        to.value -= step.what.value;
    }
    for (const auto& [key, amount] : after) {
        if (key.first == outside || (key.first == made && key.second == 0)) continue;
        if (amount.quantity < 0 || amount.value < 0) throw Refused("it has been used since");
    }
    for (const Offcut& offcut : offcuts)
        if (after[{offcut.id, offcut.lot}].quantity
            > offcut.width * std::max<Count>(1, offcut.height))
            throw Refused("an offcut came back another way since");
    const Order before = order();
    const bool took = stands(origin);
    open("reverse", day).reverses = id;
    entries.at(static_cast<std::size_t>(id - 1)).reversed_by = entries.back().id;
    for (auto step = original.moves.rbegin(); step != original.moves.rend(); ++step) {
        const Move back{step->to, step->from, step->lot, step->what};
        shift(back);
        entries.back().moves.push_back(back);
    }
    if (before == Order::moving_average && order() != before) {
        for (const Material& one : materials) even_out(one.id);
    } else {
        if (took && order() != Order::moving_average
            && order_before(origin) == Order::moving_average)
            even_out_returned(original.moves);
        std::vector<Count> touched;
        for (const Move& step : original.moves)
            if (step.lot != 0) touched.push_back(lot(step.lot).material);
        settle_emptied(touched);
    }
    for (const Batch& one : batches)
        if (!piles_of(one.id).empty() && status(one.number) != "cut")
            throw Refused("it came out of a batch that is closed");
}

void Book::start_count() {
    if (counting) throw Refused("a count is open");
    counting = true;
}

void Book::enter_count(Count material, Count offcut, Count counted) {
    if (!counting) throw Refused("no count is open");
    const Count in_book = offcut == 0 ? units_on_shelf(material) : piles_of(offcut).empty() ? 0 : 1;
    counts[{material, offcut}] = {counted, in_book};
}

void Book::drop_count() {
    if (!counting) throw Refused("no count is open");
    counting = false;
    counts.clear();
}

void Book::post_count(Count day) {
    if (!counting) throw Refused("no count is open");
    open("stocktake", day);
    for (const auto& [what, line] : counts) {
        if (line.counted == line.in_book) continue;
        if (what.second == 0) {
            correct_shelf(what.first, line.counted - line.in_book);
        } else {
            correct_offcut(what.second, line.counted - line.in_book);
        }
    }
    drop_count();
}

/// What standing counts took off the shelves of a material and later ones did not bring back, lot
/// by lot, the newest number first; lots of which less is left among what was written off are
/// left out.
std::vector<Book::LotTake> Book::counted_away(Count material) const {
    std::map<Count, Amount, std::greater<>> away;
    for (const Entry& entry : entries) {
        if (entry.kind != "stocktake" || !stands(entry.id)) continue;
        for (const Move& step : entry.moves) {
            const Count sign = step.from == step.lot && step.to == written_off   ? 1
                               : step.from == written_off && step.to == step.lot ? -1
                                                                                 : 0;
            if (lot(step.lot).material != material) continue;
            away[step.lot].quantity += sign * step.what.quantity;
            away[step.lot].value += sign * step.what.value;
        }
    }
    std::vector<LotTake> found;
    for (const auto& [own, amount] : away) {
        const Amount lost = pile(written_off, own);
        if (amount.quantity > 0 && amount.quantity <= lost.quantity && amount.value >= 0
            && amount.value <= lost.value)
            found.push_back({own, amount});
    }
    return found;
}

void Book::correct_shelf(Count material_id, Count difference) {
    if (difference < 0) {
        for (const LotTake& one : take(material_id, oldest_first(material_id, -difference, true)))
            leave_shelf(one.lot, written_off, one.what);
        return;
    }
    for (const LotTake& away : counted_away(material_id)) {
        const Count unit = lot(away.lot).unit;
        const Count back = std::min(difference, away.what.quantity / unit);
        if (back == 0) continue;
        move(written_off, away.lot, away.lot,
             {back * unit, share(away.what.value, back * unit, away.what.quantity)});
        difference -= back;
    }
    if (difference == 0) return;
    Lot found;
    found.id = next_holder_++;
    found.material = material_id;
    found.unit = material(material_id).measure();
    found.day = entries.back().day;
    found.received = {difference * found.unit, 0};
    lots.push_back(found);
    move(outside, found.id, found.id, found.received);
}

void Book::correct_offcut(Count id, Count difference) {
    const bool there = !piles_of(id).empty();
    if (difference < 0) {
        if (!there) throw Refused("the offcut went by another way since it was counted");
        for (const auto& [own, amount] : piles_of(id)) move(id, written_off, own, amount);
        return;
    }
    if (there) throw Refused("the offcut is in the book again since it was counted");
    const Offcut& one = offcut(id);
    const auto [holder, own] = where_lost(one.material, one.width * one.height, one.lot);
    move(holder, id, own, {one.width * one.height, 0});
}

} // namespace model
