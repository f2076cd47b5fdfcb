// Batches and journals of the naive book.

#include "model/book.hpp"

#include <algorithm>

namespace model {

Count Book::keep_plan(Plan plan) {
    Batch batch;
    batch.id = next_holder_++;
    batch.number = next_batch_++;
    batch.plan = std::move(plan);
    batches.push_back(std::move(batch));
    return batches.back().number;
}

void Book::plan(Count day, Plan plan) {
    const Count number = keep_plan(std::move(plan));
    Entry& entry = open("plan", day);
    entry.batch = number;
    entry.becomes = "planned";
}

void Book::cut(Count day, Count number, const CutReport& report) {
    if (status(number) != "planned") throw Refused("the batch is not planned");
    Batch& batch = batch_numbered(number);
    open("cut", day);
    carry_out(batch, report);
    entries.back().batch = number;
    entries.back().becomes = "cut";
}

void Book::finish(Count day, Count number, const std::vector<Count>& wanted) {
    if (status(number) != "cut") throw Refused("the batch is not cut");
    open("finish", day);
    complete(batch_numbered(number), wanted);
    entries.back().batch = number;
    entries.back().becomes = "finished";
}

void Book::make(Count day, Plan plan) {
    const Count number = keep_plan(std::move(plan));
    open("make", day);
    Batch& batch = batch_numbered(number);
    carry_out(batch, {});
    complete(batch, batch.plan.journals);
    entries.back().batch = number;
    entries.back().becomes = "finished";
}

/// Counted and poured things go back with all they cost; what was cut is lost.
void Book::abandon(Count day, Count number) {
    const std::string stands_at = status(number);
    if (stands_at != "planned" && stands_at != "cut") throw Refused("the batch is not under way");
    const Count id = batch_numbered(number).id;
    Entry& entry = open("abandon", day);
    entry.batch = number;
    entry.becomes = "abandoned";
    const auto held = piles_of(id);
    for (const auto& [own, amount] : held) {
        if (material(lot(own).material).is_cut) {
            move(id, written_off, own, amount);
            continue;
        }
        // Value without things goes where things of its kind go back to.
        Count shelf = own;
        for (auto other = held.rbegin(); amount.quantity == 0 && other != held.rend(); ++other)
            if (other->second.quantity > 0 && lot(other->first).material == lot(own).material)
                shelf = other->first;
        move(id, shelf, own, amount);
    }
}

void Book::change_remnants(std::vector<Sheet>& bench, const CutReport& report) const {
    Count number = 0;
    std::size_t used = 0;
    for (Sheet& sheet : bench) {
        std::vector<Remnant> real;
        for (const Remnant& planned : sheet.remnants) {
            const auto change = report.changed.find(++number);
            if (change == report.changed.end()) {
                real.push_back(planned);
                continue;
            }
            ++used;
            const auto& [kept, size] = change->second;
            if (kept) real.push_back({size.width, size.height, planned.keeps_label});
        }
        sheet.remnants = real;
        if (sheet.waste() < 0) throw Refused("more remnants than the pieces leave");
    }
    if (used != report.changed.size()) throw Refused("no such remnant in the plan");
}

void Book::add_extra(std::vector<Sheet>& bench, const CutReport& report) const {
    for (const auto& [own, size] : report.extra) {
        Sheet* most = nullptr;
        for (Sheet& sheet : bench)
            if (sheet.material == own && (most == nullptr || sheet.waste() > most->waste()))
                most = &sheet;
        if (most == nullptr || most->waste() < size.measure())
            throw Refused("no sheet has so much waste");
        most->remnants.push_back(size);
    }
}

/// Sheets spoiled come off the lots the batch cuts, then off the others, the oldest first, as far
/// as no planned batch has them reserved.
void Book::spoil(std::vector<Sheet>& bench, const Batch& batch, const CutReport& report) const {
    for (const auto& [own, units] : report.spoiled) {
        const bool used = std::any_of(batch.plan.parts.begin(), batch.plan.parts.end(),
                                      [id = own](const Part& part) { return part.material == id; });
        if (!used) throw Refused("the batch does not use that material");
        Count left = units;
        auto there = shelf(own);
        std::stable_partition(there.begin(), there.end(), [&](const Lot& one) {
            return std::any_of(bench.begin(), bench.end(),
                               [&](const Sheet& sheet) { return sheet.source == one.id; });
        });
        for (const Lot& one : there) {
            const Count free = std::max<Count>(0, pile(one.id, one.id).quantity - reserved(one.id));
            for (Count i = 0; i < free / one.unit && left > 0; ++i, --left) {
                Sheet sheet;
                sheet.material = own;
                sheet.source = one.id;
                sheet.measure = one.unit;
                bench.push_back(sheet);
            }
        }
        if (left > 0) throw Refused("fewer are there to be spoiled");
    }
}

void Book::take_lots(std::vector<Sheet>& bench, const Batch& batch) {
    std::map<Count, std::map<Count, Count>> wanted;
    for (const Sheet& sheet : bench)
        if (piles.count({sheet.source, sheet.source}) > 0
            || std::any_of(lots.begin(), lots.end(),
                           [&](const Lot& one) { return one.id == sheet.source; }))
            wanted[sheet.material][sheet.source] += sheet.measure;
    for (const Take& one : batch.plan.takes) wanted[one.material][one.lot] += one.quantity;
    for (const auto& [own, quantities] : wanted) {
        for (const auto& [id, quantity] : quantities)
            if (pile(id, id).quantity < quantity) throw Refused("the shelf no longer has it");
        const auto takes = take(own, quantities);
        for (const LotTake& one : takes) leave_shelf(one.lot, batch.id, one.what);
        price(bench, own, takes);
    }
}

/// What each sheet cost: its part of what its lot gave, or under the moving average of all.
void Book::price(std::vector<Sheet>& bench, Count own, const std::vector<LotTake>& takes) const {
    const bool average = order() == Order::moving_average;
    std::map<Count, Count> given; // source (0: all together)
    for (const LotTake& one : takes) given[average ? 0 : one.lot] += one.what.value;
    for (const auto& [source, value] : given) {
        std::vector<Sheet*> sheets;
        std::vector<Wide> measures;
        for (Sheet& sheet : bench) {
            const bool fresh = std::any_of(lots.begin(), lots.end(),
                                           [&](const Lot& one) { return one.id == sheet.source; });
            if (!fresh || sheet.material != own || (!average && sheet.source != source)) continue;
            sheets.push_back(&sheet);
            measures.push_back(sheet.measure);
        }
        if (sheets.empty()) continue;
        const auto costs = model::split(value, measures);
        for (std::size_t i = 0; i < sheets.size(); ++i) sheets[i]->cost = costs[i];
    }
}

/// Value that goes from one holder to another as a quantity of one lot: what that lot has of it
/// first, the rest from the other lots of the material in proportion.
static std::vector<std::pair<Count, Amount>>
divide(const std::vector<std::pair<Count, Count>>& held, Count first, Amount what) {
    Count own = 0;
    std::vector<Wide> weights;
    for (const auto& [lot, value] : held) {
        if (lot == first) own = value;
        weights.push_back(lot == first ? 0 : value);
    }
    const Count from_own = std::min(own, what.value);
    std::vector<std::pair<Count, Amount>> parts = {{first, {what.quantity, from_own}}};
    const auto shares = model::split(what.value - from_own, weights);
    for (std::size_t i = 0; i < held.size(); ++i)
        if (held[i].first != first) parts.push_back({held[i].first, {0, shares[i]}});
    return parts;
}

/// An offcut goes into the batch, but for what stays under its label.
void Book::into_work(const Sheet& sheet, const Batch& batch, Count staying, Count staying_value) {
    if (staying == 0) {
        for (const auto& [own, amount] : piles_of(sheet.source))
            move(sheet.source, batch.id, own, amount);
        return;
    }
    std::vector<std::pair<Count, Count>> held;
    for (const auto& [own, amount] : piles_of(sheet.source)) held.emplace_back(own, amount.value);
    const Amount going{sheet.measure - staying, sheet.cost - staying_value};
    for (const auto& [own, amount] : divide(held, offcut(sheet.source).lot, going))
        move(sheet.source, batch.id, own, amount);
}

void Book::cut_sheet(Sheet& sheet, const Batch& batch) {
    const bool is_offcut = std::any_of(offcuts.begin(), offcuts.end(),
                                       [&](const Offcut& one) { return one.id == sheet.source; });
    Count own = sheet.source;
    if (is_offcut) {
        own = offcut(sheet.source).lot;
        sheet.cost = all_of(sheet.source).value;
        if (all_of(sheet.source).quantity != sheet.measure)
            throw Refused("the offcut is no longer there as it was");
    }
    // Remnants carry the shop's percentage of their share by area; the pieces bear the rest.
    std::vector<Wide> weights;
    Wide rest = Wide{sheet.measure} * 100;
    for (const Remnant& remnant : sheet.remnants) {
        weights.push_back(Wide{remnant.measure()} * offcut_percent);
        rest -= weights.back();
    }
    weights.push_back(rest);
    const auto values = model::split(sheet.cost, weights);
    Count staying = 0, staying_value = 0;
    for (std::size_t i = 0; i < sheet.remnants.size(); ++i) {
        if (!sheet.remnants[i].keeps_label) continue;
        staying += sheet.remnants[i].measure();
        staying_value += values[i];
    }
    if (is_offcut) into_work(sheet, batch, staying, staying_value);
    for (std::size_t i = 0; i < sheet.remnants.size(); ++i) {
        if (sheet.remnants[i].keeps_label) continue;
        const Count id = new_offcut(sheet.material, own, sheet.remnants[i]);
        std::vector<std::pair<Count, Count>> held;
        for (const auto& [from, amount] : piles_of(batch.id))
            if (lot(from).material == sheet.material) held.emplace_back(from, amount.value);
        const Amount what{sheet.remnants[i].measure(), values[i]};
        for (const auto& [from, amount] : divide(held, own, what)) move(batch.id, id, from, amount);
    }
}

void Book::carry_out(Batch& batch, const CutReport& report) {
    std::vector<Sheet> bench = batch.plan.sheets;
    change_remnants(bench, report);
    spoil(bench, batch, report);
    add_extra(bench, report);
    take_lots(bench, batch);
    for (Sheet& sheet : bench) cut_sheet(sheet, batch);
}

/// What the batch holds of each material, divided as its runs were planned to use it: by planned
/// cost, or by quantity where that is nothing.
std::vector<Count> Book::materials_of_runs(const Batch& batch) const {
    std::vector<Count> sums(batch.plan.journals.size());
    for (const Material& one : materials) {
        Count held = 0;
        for (const auto& [own, amount] : piles_of(batch.id))
            if (lot(own).material == one.id) held += amount.value;
        std::vector<Wide> costs(sums.size()), quantities(sums.size());
        bool free = true;
        for (const Part& part : batch.plan.parts) {
            if (part.material != one.id) continue;
            costs[part.run] += part.cost;
            quantities[part.run] += part.quantity;
            free = free && part.cost == 0;
        }
        const auto shares = model::split(held, free ? quantities : costs);
        for (std::size_t run = 0; run < sums.size(); ++run) sums[run] += shares[run];
    }
    return sums;
}

void Book::complete(Batch& batch, const std::vector<Count>& wanted) {
    for (std::size_t run = 0; run < wanted.size(); ++run)
        if (wanted[run] < 1 || wanted[run] > batch.plan.journals[run])
            throw Refused("more journals than were planned, or none");
    const auto sums = materials_of_runs(batch);
    for (const auto& [own, amount] : piles_of(batch.id)) move(batch.id, made, own, amount);
    for (std::size_t run = 0; run < wanted.size(); ++run) {
        const std::vector<Wide> ones(static_cast<std::size_t>(wanted[run]), 1);
        for (const Count value : model::split(sums[run], ones)) {
            const std::string number = std::to_string(++batch.journals_ever);
            journals.push_back(
                {next_holder_++, batch.number, entries.back().id,
                 std::to_string(batch.number) + (number.size() < 2 ? "-0" : "-") + number});
            move(made, journals.back().id, 0, {1, value});
        }
    }
}

/// What the journals finished together still hold of each lot, in the order of the lots: what went
/// in, less what came back out of others of them that were taken apart.
std::vector<Book::LotTake> Book::sources_of(const Journal& journal) const {
    std::map<Count, Amount> held;
    for (const Move& step : entries.at(static_cast<std::size_t>(journal.entry - 1)).moves)
        if (step.to == made && step.lot != 0) held[step.lot] = step.what;
    for (const Entry& entry : entries) {
        if (entry.kind != "take apart" || !stands(entry.id)) continue;
        const Count taken = entry.moves.back().from;
        const bool sister = std::any_of(journals.begin(), journals.end(), [&](const Journal& one) {
            return one.id == taken && one.entry == journal.entry;
        });
        if (!sister) continue;
        for (const Move& step : entry.moves) {
            if (step.from != made) continue;
            held[step.lot].quantity -= step.what.quantity;
            held[step.lot].value -= step.what.value;
        }
    }
    std::vector<LotTake> sources;
    for (const auto& [own, amount] : held) sources.push_back({own, amount});
    return sources;
}

void Book::take_apart(Count day, Count id, const std::vector<WantedBack>& wanted) {
    if (pile(id, 0).quantity == 0) throw Refused("the journal is not in hand");
    const Journal journal = *std::find_if(journals.begin(), journals.end(),
                                          [&](const Journal& one) { return one.id == id; });
    struct Back {
        Count lot = 0, material = 0;
        Amount what;
        Remnant piece;
    };
    std::vector<LotTake> sources = sources_of(journal);
    std::map<Count, Count> there; // what else was found of it is there no more
    for (const LotTake& one : sources)
        there[one.lot] = std::min(one.what.quantity, pile(made, one.lot).quantity);
    std::vector<Back> backs;
    for (const WantedBack& back : wanted) {
        const bool piece = back.units == 0;
        Count left = piece ? 1 : back.units;
        for (auto source = sources.rbegin(); source != sources.rend() && left > 0; ++source) {
            if (lot(source->lot).material != back.material) continue;
            const Count unit = piece ? back.piece.measure() : lot(source->lot).unit;
            const Count many = std::min(left, std::max<Count>(0, there[source->lot]) / unit);
            if (many == 0) continue;
            const Count part = many * unit;
            const Count value = share(source->what.value, part, source->what.quantity);
            source->what.quantity -= part;
            source->what.value -= value;
            there[source->lot] -= part;
            left -= many;
            backs.push_back({source->lot, back.material, {part, value}, back.piece});
        }
        if (left > 0) throw Refused("so much is not in it");
    }
    const Count worth = pile(id, 0).value;
    Count sum = 0;
    std::vector<Wide> weights;
    for (const Back& back : backs) {
        sum += back.what.value;
        weights.push_back(back.what.value);
    }
    if (sum > worth) {
        const auto shares = model::split(worth, weights);
        for (std::size_t i = 0; i < backs.size(); ++i) backs[i].what.value = shares[i];
        sum = worth;
    }
    open("take apart", day);
    for (const Back& back : backs) {
        const bool piece = back.piece.width > 0;
        move(made, piece ? new_offcut(back.material, back.lot, back.piece) : back.lot, back.lot,
             back.what);
    }
    move(id, made, 0, {0, sum});
    move(id, written_off, 0, {1, worth - sum});
}

} // namespace model
